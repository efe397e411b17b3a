#include "scenarios/quantity_text.hpp"

#include "scenarios/quantities.hpp"

namespace hoofload::scenarios {

namespace {

std::string models_text(Given given) {
  if (given == Given::axisymmetric) return "axisymmetric";
  return given == Given::sagittal ? "sagittal" : "both";
}

std::string sign_text(int worse_sign) {
  if (worse_sign > 0) return "a rise";
  return worse_sign < 0 ? "a fall" : "neither";
}

}  // namespace

std::vector<Topic> quantity_topics() {
  std::vector<Topic> topics;
  for (const QuantityKey& q : quantity_catalogue()) {
    const std::string key(q.key);
    topics.push_back({key, key + ": " + std::string(q.definition) + "\n  in pictures and lessons: " +
                               std::string(q.words) + "\n  unit     " + std::string(q.unit) + "\n  model    " +
                               models_text(q.model) + "\n  worse    " + sign_text(q.worse_sign) + "\n"});
  }
  return topics;
}

std::string quantities_markdown() {
  std::string text =
      "# Quantities\n\n"
      "Generated from the catalogue (`scenarios/quantities.cpp`); a test compares the two. Write it anew with\n"
      "`hoofload explain quantities --markdown > docs/quantities.md`. Model: which of the two models gives the "
      "quantity. Worse: the\n"
      "change that a comparison lists under \"what got worse\"; the opposite one stands under \"what got better\". "
      "Pressures are means\n"
      "over 5 mm, never nodal maxima. Each value carries its mesh bar, Eq. (77).\n\n"
      "| key | in pictures and lessons | unit | definition | model | worse |\n|---|---|---|---|---|---|\n";
  for (const QuantityKey& q : quantity_catalogue())
    text += "| `" + std::string(q.key) + "` | " + std::string(q.words) + " | " + std::string(q.unit) + " | " +
            std::string(q.definition) + " | " + models_text(q.model) + " | " + sign_text(q.worse_sign) + " |\n";
  return text;
}

}  // namespace hoofload::scenarios
