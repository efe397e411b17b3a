// Bodies of a shod foot keep to their sides: what is bonded stays together, what may slide and part never passes through its
// neighbour. Read from the displaced nodes of the mesh's own lines, not from the contacts that the model made of them, so that a
// contact which was never made shows. Source: statics; two bodies cannot be in one place.
#include "tests/support/record.hpp"
#include "tests/support/shod_foot.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;
using solver::Vec2;

Change bond(mesh::PackingBond how) {
  return [=](Case& c) { c.shoeing.packing.bond = how; };
}

const Feet& feet(ModelKind model) {
  const auto solve = [](ModelKind kind, double density) {
    const Case open = open_steel(kind, density, {Phase::standing, Phase::midstance});
    return Feet({open, changed(open, "bonded", {plate, packed_before(0), bond(mesh::PackingBond::bonded)}),
                 changed(open, "free", {plate, packed_after(), bond(mesh::PackingBond::free)})});
  };
  static const Feet ring = solve(ModelKind::axisymmetric, 0.5);
  static const Feet side = solve(ModelKind::sagittal, 0.35);
  return model == ModelKind::axisymmetric ? ring : side;
}

/// A line's two sides after loading, without its ends: a corner belongs to other lines too.
struct Sides {
  std::vector<Vec2> slave, master;
};
Sides sides(const scenarios::BuiltModel& built, const solver::State& state, const std::string& line) {
  const Eigen::VectorXd u = built.system->displacements(state);
  const auto place = [&](int node) {
    return Vec2(built.mesh.X[static_cast<std::size_t>(node)] +
                Vec2(u[solver::plane_dof(node, 0)], u[solver::plane_dof(node, 1)]));
  };
  std::vector<mesh::NodePair> pairs = built.mesh.pairs.at(line);
  const auto x = [&](const mesh::NodePair& p) { return built.mesh.X[static_cast<std::size_t>(p.slave)].x(); };
  std::sort(pairs.begin(), pairs.end(), [&](const auto& a, const auto& b) { return x(a) < x(b); });
  Sides result;
  for (std::size_t k = 2; k + 2 < pairs.size(); ++k) {
    result.slave.push_back(place(pairs[k].slave));
    result.master.push_back(place(pairs[k].master));
  }
  return result;
}

/// Height of the polygon at x; nothing beyond its ends.
std::optional<double> height(const std::vector<Vec2>& polygon, double x) {
  for (std::size_t k = 0; k + 1 < polygon.size(); ++k) {
    const Vec2 &a = polygon[k], &b = polygon[k + 1];
    if (x >= a.x() && x <= b.x()) return a.y() + (b.y() - a.y()) * (x - a.x()) / (b.x() - a.x());
  }
  return std::nullopt;
}

class FilledVoid : public ::testing::TestWithParam<ModelKind> {
 protected:
  static std::string under() { return GetParam() == ModelKind::axisymmetric ? "packing_backing" : "packing_plate"; }
  static Sides after(const char* run, Phase phase, const std::string& line) {
    const auto& model = feet(GetParam()).run(run).models.front();
    return sides(*model.built, feet(GetParam()).phase(run, phase).solution.state, line);
  }
};

// Tied unknowns are held exactly; the sole moves by tenths of a millimetre.
TEST_P(FilledVoid, a_bonded_filling_stays_on_sole_and_plate) {
  for (const Phase phase : {Phase::standing, Phase::midstance})
    for (const std::string& line : {std::string("sole_packing"), under()}) {
      const Sides s = after("bonded", phase, line);
      ASSERT_GT(s.slave.size(), 10u) << line;
      double worst = 0;
      for (std::size_t k = 0; k < s.slave.size(); ++k) worst = std::max(worst, (s.slave[k] - s.master[k]).norm());
      record_exact({"a bonded filling stays on sole and plate [mm]", "statics", "coarse"},
                   std::string(scenarios::name_of(GetParam())), worst, 1e-9);
      for (std::size_t k = 0; k < s.slave.size(); ++k) EXPECT_LT((s.slave[k] - s.master[k]).norm(), 1e-9) << line << k;
    }
}

/// How far the two sides have slid on one another, at most.
double slide(const Sides& s) {
  double most = 0;
  for (std::size_t k = 0; k < s.slave.size(); ++k) most = std::max(most, std::abs(s.slave[k].x() - s.master[k].x()));
  return most;
}

// A contact keeps the normal of its node (theory, section 10): a slide s along a line of radius R overlaps by s^2/2R, which for
// slides of up to 3 mm on the sole (R 40 to 50 mm) is 3 % of s; an edge's own bow adds micrometres.
TEST_P(FilledVoid, a_free_filling_keeps_below_the_sole_and_above_the_plate) {
  for (const Phase phase : {Phase::standing, Phase::midstance}) {
    const Sides sole = after("free", phase, "sole_packing"), plate = after("free", phase, under());
    double worst = 0;
    for (const Vec2& x : sole.slave)  // the filling is the softer side
      if (const auto y = height(sole.master, x.x())) worst = std::max(worst, x.y() - *y);
    for (const Vec2& x : plate.slave)
      if (const auto y = height(plate.master, x.x())) worst = std::max(worst, *y - x.y());
    std::printf("%s, %s: deepest overlap %.5f mm, longest slide %.3f mm\n",
                std::string(scenarios::name_of(GetParam())).c_str(), std::string(scenarios::name_of(phase)).c_str(),
                worst, slide(sole));
    record_finding({"a free filling keeps below the sole and above the plate", "two bodies cannot be in one place", "coarse"},
                   std::string(scenarios::name_of(GetParam())) + ", " + std::string(scenarios::name_of(phase)),
                   "no overlap but 3 % of the slide",
                   text("%.3f mm at a slide of %.2f mm", worst, slide(sole)));
    EXPECT_LT(worst, 0.005 + 0.03 * slide(sole));
  }
}

INSTANTIATE_TEST_SUITE_P(BothModels, FilledVoid, ::testing::Values(ModelKind::axisymmetric, ModelKind::sagittal),
                         [](const auto& model) { return std::string(scenarios::name_of(model.param)); });

}  // namespace
