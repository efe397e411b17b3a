#include "scenarios/uncertainty.hpp"

namespace hoofload::scenarios {

namespace {

std::string rows(const Uncertainties& list) {
  std::string text = "| what | distribution | group | grade | source |\n|---|---|---|---|---|\n";
  for (const Uncertainty& u : list) {
    std::string shown = distribution_text(u.distribution, u.unit);
    if (u.effect == Effect::scale) shown += ", a share of the value";
    if (u.effect == Effect::add) shown += ", added";
    text += "| " + u.name + " | " + shown + " | " + std::string(name_of(u.group)) + " | " + u.grade + " | " + u.source +
            " |\n";
  }
  return text;
}

/// A case that gives every measurement: nothing is left to the spread of feet.
Case measured_case() {
  Case c;
  for (const Key& key : case_keys())
    if (key.name.substr(0, 5) == "foot.") c.given.emplace_back(key.name);
  c.given.emplace_back("horse.mass");
  c.study.vary = {UncertainGroup::measurements};
  return c;
}

Case reference_case() {
  Case c;
  for (const Key& key : case_keys()) c.defaulted.emplace_back(key.name);
  return c;
}

}  // namespace

std::string uncertainty_markdown(const materials::Catalogue& catalogue) {
  return "# What is uncertain, and how much\n\n"
         "Written by `hoofload explain uncertainty --markdown`; do not edit.\n\n"
         "With `study.samples = N` a case is solved N times more, each time with other values of everything below, "
         "drawn "
         "together by scrambled Sobol' points (docs/theory.md); `study.vary` chooses among the groups. A draw holds "
         "for "
         "the baseline and all options alike, so that what they share cancels in the difference. Grades: A measured, B "
         "thin or indirect, C secondary or a class value, M from memory, D assumed. Of a catalogue value of grade A or "
         "B the range is taken as two standard deviations of a normal distribution to either side, and as its ends; of "
         "C and D only the ends are known: uniform (JCGM 101:2008, 6.4.2). Where the ends are more than threefold "
         "apart the same holds of the logarithm. All but the uniform one is our choice. "
         "What is drawn independently may belong "
         "together in a real foot, and what is not listed is held: the load curves of the gaits, friction, the shape "
         "of "
         "the outlines, the model itself.\n\n"
         "## A measurement that the case gives\n\n" +
         rows(uncertainties({measured_case()}, catalogue)) +
         "\n## What the case leaves to the reference foot, tissues, shoe and loads\n\n"
         "For a plain steel shoe and both models; pad, packing, layer and ground bring the ranges of "
         "[their materials](materials.md).\n\n" +
         rows(uncertainties({reference_case()}, catalogue));
}

}  // namespace hoofload::scenarios
