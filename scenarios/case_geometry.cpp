#include "scenarios/case_geometry.hpp"

#include <algorithm>
#include <exception>

#include "mesh/axisymmetric_shape.hpp"
#include "mesh/capsule_shell.hpp"
#include "mesh/sagittal_sheets.hpp"
#include "scenarios/case_keys.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kAnyLamellaArea = 8100;  ///< [mm^2]; the outline's faults do not depend on it

/// The keys whose words stand in the outline's complaint: "sole_depth_tip 8 mm" is foot.sole_depth_tip.
std::vector<std::string_view> keys_named_in(const std::string& complaint) {
  std::vector<std::string_view> keys;
  for (const Key& key : case_keys()) {
    const std::string_view word = key.name.substr(key.name.find('.') + 1);
    if (complaint.find(std::string(word) + " ") != std::string::npos) keys.push_back(key.name);
  }
  if (keys.empty()) keys = {"foot.bearing_length", "shoe.type"};
  return keys;
}

template <class Draw>
void try_to(Draw&& draw, std::vector<Clash>& found) {
  try {
    draw();
  } catch (const std::exception& e) {
    const std::string complaint = e.what();
    if (std::none_of(found.begin(), found.end(), [&](const Clash& c) { return c.value == complaint; }))
      found.push_back({keys_named_in(complaint), "impossible geometry: the section cannot be drawn", complaint,
                       "measurements that fit each other (docs/reference-foot.md)"});
  }
}

}  // namespace

std::vector<Clash> undrawable(const Case& c) {
  std::vector<Clash> found;
  mesh::Shoeing shoeing = c.shoeing;
  if (shoeing.shoe.type == mesh::ShoeType::bare)
    shoeing.pad = {}, shoeing.packing = {};  // said elsewhere to have no effect
  for (const ModelKind model : c.study.models) {
    if (model == ModelKind::axisymmetric) {
      try_to([&] { (void)mesh::axisymmetric_shape(c.foot, shoeing, kAnyLamellaArea); }, found);
    } else {
      try_to([&] { (void)mesh::sagittal_plan(c.foot, shoeing, 1); }, found);
      try_to([&] { (void)mesh::capsule_shell(c.foot); }, found);
    }
  }
  return found;
}

}  // namespace hoofload::scenarios
