#include "viz/region_style.hpp"

#include <algorithm>
#include <array>

namespace hoofload::viz {
namespace {

struct Entry {
  std::string_view region, name, fill;
  Layer layer;
};

// Regions that are one body to the reader share a name. Tones differ in lightness, so neighbours stay apart without colour.
constexpr std::array<Entry, 17> entries{{
    {"shoe", "shoe", "#9aa3ab", Layer::behind},
    {"shoe_layer", "lower layer of the shoe", "#c3cad0", Layer::behind},
    {"pad", "pad", "#b4bd9f", Layer::behind},
    {"pad_toe", "pad", "#b4bd9f", Layer::behind},
    {"plate", "plate", "#b7c1c9", Layer::behind},
    {"packing", "packing", "#d5dfe6", Layer::body},
    {"packing_frog", "packing", "#d5dfe6", Layer::body},
    {"wall", "wall", "#d8cdb8", Layer::body},
    {"white_line", "white line", "#efe8d8", Layer::body},
    {"white line", "white line", "#efe8d8", Layer::body},
    {"lamella", "lamellae", "#e3b9ae", Layer::body},
    {"corium", "solar corium", "#ecd0c8", Layer::body},
    {"sole", "sole", "#e2d9c8", Layer::body},
    {"frog", "frog", "#cfc3b0", Layer::body},
    {"frog_plate", "sole", "#e2d9c8", Layer::body},
    {"cushion", "digital cushion", "#f0e3c6", Layer::body},
    {"bone", "bone", "#f4f1e8", Layer::body},
}};

}  // namespace

RegionStyle region_style(std::string_view region) {
  const auto found = std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.region == region; });
  if (found == entries.end()) return {std::string(region), "#e6e6e6", Layer::body};
  return {std::string(found->name), std::string(found->fill), found->layer};
}

}  // namespace hoofload::viz
