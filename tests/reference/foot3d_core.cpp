#include "tests/reference/foot3d_core.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace hoofload::tests {
namespace {

using mesh::Vec3;

constexpr double kReach = 22;  ///< so far inside the white line the plan follows the wall's lean [mm]

/// The sole's rim as points with outward normals.
struct RimPoint {
  Eigen::Vector2d at, normal;
};

std::vector<RimPoint> rim_points(const FootPlan& plan) {
  std::vector<RimPoint> rim;
  const double front = plan.of.view.white_line, end = plan.of.view.sole_end;
  constexpr int n = 600;
  for (int k = 0; k <= n; ++k) {
    const double u = static_cast<double>(k) / n, x = front + u * u * (end - front);
    rim.push_back({{x, k == 0 ? 0 : plan.rim(x)}, {1, 0}});
  }
  for (std::size_t k = 1; k + 1 < rim.size(); ++k) {
    const Eigen::Vector2d along = rim[k + 1].at - rim[k - 1].at;
    rim[k].normal = Eigen::Vector2d(along.y(), -along.x()).normalized();
  }
  rim.back().normal = rim[rim.size() - 2].normal;
  return rim;
}

/// How far the wall's inner face at height y lies outside the rim's point along its normal (negative: inside).
double lean_at(const mesh::PlanOutline& o, const RimPoint& p, double y) {
  double low = -2.5 * std::abs(y) - 1, high = 3;
  for (int k = 0; k < 26; ++k) {
    const double half = 0.5 * (low + high);
    const Eigen::Vector2d at = p.at + half * p.normal;
    (at.y() < mesh::inner_half_width(o, at.x(), y) ? low : high) = half;
  }
  return 0.5 * (low + high);
}

/// What is above one point of the plan: heights of the level lines there.
struct Heights {
  double ground, plate, top, frog, sole, horn, bone;
};

class Levels {
 public:
  explicit Levels(const FootPlan& plan)
      : plan_(plan), rim_(rim_points(plan)), rim_height_(mesh::sole_ground(plan.of.view, plan.of.view.white_line)) {}

  [[nodiscard]] Heights at(const Eigen::Vector2d& p) const {
    const auto& v = plan_.of.view;
    const double x = p.x(), base = mesh::sole_ground(v, x), half = plan_.rim(x);
    const double share = half > 0 ? std::clamp(p.y() / half, 0.0, 1.0) : 1;
    Heights h{};
    h.ground = -plan_.of.shoeing.shoe.thickness;
    h.plate = h.ground + plan_.of.shoeing.shoe.plate_thickness;
    h.sole = base + share * share * (std::min(base, rim_height_) - base);
    const double floor = plan_.of.backed() ? h.plate : h.ground;
    h.frog = p.y() <= plan_.frog(x) + 1e-6 ? std::min(mesh::frog_ground(v, x), h.sole - 0.5)
                                           : floor + 0.67 * (h.sole - floor);
    h.horn = h.sole + mesh::horn_top(v, x) - base;
    h.bone = h.horn + mesh::bone_underside(v, x) - mesh::horn_top(v, x);
    return h;
  }

  /// Place of a plan point at height y: near the rim it follows the wall's lean.
  [[nodiscard]] Vec3 place(const Eigen::Vector2d& p, double y) const {
    if (y <= 0) return {p.x(), y, p.y()};
    const RimPoint* nearest = &rim_.front();
    for (const RimPoint& r : rim_)
      if ((r.at - p).squaredNorm() < (nearest->at - p).squaredNorm()) nearest = &r;
    const double weight = std::max(0.0, 1 - (nearest->at - p).norm() / kReach);
    if (weight == 0) return {p.x(), y, p.y()};
    const Eigen::Vector2d q = p + weight * lean_at(plan_.of.plan.outline, *nearest, y) * nearest->normal;
    return {q.x(), y, p.y() == 0 ? 0 : q.y()};
  }

 private:
  const FootPlan& plan_;
  std::vector<RimPoint> rim_;
  double rim_height_;
};

/// A stack of wedges over one kind of ground plan: level lines from below, each layer with its part.
enum class Stack { stand, foot };

class Builder {
 public:
  Builder(const FootPlan& plan, const CoreDivisions& d, const PlanTriangles& tri)
      : plan_(plan), d_(d), tri_(tri), levels_(plan) {
    for (const auto& p : tri.X) heights_.push_back(levels_.at(p));
    for (const auto& t : tri.tri)
      for (std::size_t k = 0; k < 3; ++k) ends_[t[3 + k]] = {t[k], t[(k + 1) % 3]};
    mark_lines();
  }

  Core build() {
    for (std::size_t e = 0; e < tri_.tri.size(); ++e) {
      const Eigen::Vector2d c = centre(e);
      const bool opening = plan_.in_opening(c.x(), c.y()), backed = plan_.of.backed();
      if (!opening) {
        const double last = d_.stand * 2;
        for (int k = 0; k < d_.stand; ++k) wedge(e, Stack::stand, k, "shoe");
        for (int k = d_.stand; k < last; ++k) wedge(e, Stack::stand, k, "shoe", k + 1 == static_cast<int>(last));
      } else if (backed) {
        for (int k = 0; k < d_.stand; ++k) wedge(e, Stack::stand, k, "plate");
      }
      if (packed() && plan_.in_packing(c.x(), c.y())) fill_packing(e, c);
      if (packed() || plan_.in_frog(c.x(), c.y())) fill_frog(e, c);
      if (plan_.in_sole(c.x(), c.y()))
        for (int k = 0; k < d_.horn; ++k)
          wedge(e, Stack::foot, above_packing() + 1 + k, plan_.in_frog(c.x(), c.y()) ? "frog" : "sole");
      if (plan_.in_corium(c.x(), c.y()))
        for (int k = 0; k < d_.corium; ++k)
          wedge(e, Stack::foot, above_packing() + 1 + d_.horn + k, "corium", k + 1 == d_.corium);
    }
    for (const auto& [key, id] : id_) collect(key, id);
    return std::move(core_);
  }

 private:
  struct Key {
    Stack stack;
    int half;  ///< twice the level line; odd: middle of a layer
    int plan;
    auto operator<=>(const Key&) const = default;
  };

  [[nodiscard]] bool packed() const { return plan_.of.shoeing.packing.region != mesh::PackingRegion::none; }
  [[nodiscard]] int above_packing() const { return d_.packing; }  ///< level line of the frog's ground face

  [[nodiscard]] Eigen::Vector2d centre(std::size_t e) const {
    Eigen::Vector2d c = Eigen::Vector2d::Zero();
    for (std::size_t a = 0; a < 3; ++a) c += tri_.X[static_cast<std::size_t>(tri_.tri[e][a])] / 3;
    return c;
  }

  /// Height of a level line (fractional: middle of a layer).
  [[nodiscard]] double height(Stack stack, double level, int p) const {
    const Heights& h = heights_[static_cast<std::size_t>(p)];
    const auto between = [](double a, double b, double u) { return a + u * (b - a); };
    if (stack == Stack::stand)
      return level <= d_.stand ? between(h.ground, h.plate, level / d_.stand)
                               : between(h.plate, h.top, (level - d_.stand) / d_.stand);
    const double floor = plan_.of.backed() ? h.plate : h.ground;
    if (level <= d_.packing) return between(floor, h.frog, level / d_.packing);
    level -= d_.packing;
    if (level <= 1) return between(h.frog, h.sole, level);
    level -= 1;
    if (level <= d_.horn) return between(h.sole, h.horn, level / d_.horn);
    return between(h.horn, h.bone, (level - d_.horn) / d_.corium);
  }

  int node(Stack stack, int half, int p) {
    // the packing lies bonded on the plate: they share that line
    if (stack == Stack::foot && half == 0 && plan_.of.backed()) stack = Stack::stand, half = 2 * d_.stand;
    if (const auto it = id_.find({stack, half, p}); it != id_.end()) return it->second;
    const int id = static_cast<int>(core_.X.size());
    id_[{stack, half, p}] = id;
    const auto ends = ends_.find(p);
    core_.X.push_back(ends == ends_.end()
                          ? place(stack, half, p)
                          : 0.5 * (place(stack, half, ends->second[0]) + place(stack, half, ends->second[1])));
    return id;
  }

  /// Place of a corner of the plan on a level line; mid-side nodes lie half-way between (straight sides never fold).
  [[nodiscard]] Vec3 place(Stack stack, int half, int p) const {
    const double y = height(stack, 0.5 * half, p);
    const Eigen::Vector2d& at = tri_.X[static_cast<std::size_t>(p)];
    return stack == Stack::stand ? Vec3{at.x(), y, at.y()} : levels_.place(at, y);
  }

  void wedge(std::size_t e, Stack stack, int layer, const char* part, bool marked = false) {
    Wedge w{};
    const auto& t = tri_.tri[e];
    for (std::size_t a = 0; a < 3; ++a) {
      w.nodes[a] = node(stack, 2 * layer, t[a]);
      w.nodes[3 + a] = node(stack, 2 * layer + 2, t[a]);
      w.nodes[6 + a] = node(stack, 2 * layer, t[3 + a]);
      w.nodes[9 + a] = node(stack, 2 * layer + 2, t[3 + a]);
      w.nodes[12 + a] = node(stack, 2 * layer + 1, t[a]);
    }
    w.part = part;
    w.centre = centre(e);
    const auto at = [&](std::size_t a) { return tri_.X[static_cast<std::size_t>(t[a])]; };
    const Eigen::Vector2d u = at(1) - at(0), v = at(2) - at(0);
    w.area = 0.5 * std::abs(u.x() * v.y() - u.y() * v.x());
    const int id = static_cast<int>(core_.wedges.size());
    if (marked && stack == Stack::stand) core_.top.emplace_back(id, 2);
    if (marked && stack == Stack::foot)
      for (std::size_t a : {3, 4, 5, 9, 10, 11}) bone_.insert(w.nodes[a]);
    if (stack == Stack::stand && layer == 0)
      for (std::size_t a : {0, 1, 2, 6, 7, 8}) (w.part == "shoe" ? ring_ : plate_).insert(w.nodes[a]);
    if (w.part == "packing") {
      w.lowest_of_packing = layer == 0;
      w.highest_of_packing = layer == above_packing() - (plan_.in_frog(w.centre.x(), w.centre.y()) ? 1 : 0);
      if (layer == 0 && !plan_.of.backed())
        for (std::size_t a : {0, 1, 2, 6, 7, 8}) lying_.insert(w.nodes[a]);
      for (const int n : w.nodes) packing_.insert(n);
    }
    if (w.part == "sole" || (w.part == "frog" && layer > above_packing()))
      for (const int n : w.nodes) horn_.insert(n);
    core_.wedges.push_back(w);
  }

  void fill_packing(std::size_t e, const Eigen::Vector2d&) {
    for (int k = 0; k < d_.packing; ++k) wedge(e, Stack::foot, k, "packing");
  }
  /// The layer between the frog's ground face and the sole's outer face.
  void fill_frog(std::size_t e, const Eigen::Vector2d& c) {
    if (plan_.in_frog(c.x(), c.y()) && c.x() > plan_.packing_end)
      wedge(e, Stack::foot, above_packing(), "frog");
    else if (packed() && plan_.in_packing(c.x(), c.y()))
      wedge(e, Stack::foot, above_packing(), "packing");
  }

  /// Plan nodes on the sole's rim and on the shoe's inner edge. A mid-side node lies on the chord, beside a curved line: it
  /// belongs to the line when both its ends do.
  void mark_lines() {
    const auto& v = plan_.of.view;
    const double edge_front = plan_.of.shoe.inner_toe;
    const auto rim = [&](double x) { return plan_.rim(x); };
    const auto edge = [&](double x) { return plan_.shoe_inner(x); };
    for (int p = 0; p < static_cast<int>(tri_.X.size()); ++p) {
      if (ends_.contains(p)) continue;
      const auto& at = tri_.X[static_cast<std::size_t>(p)];
      if (at.x() <= v.white_line + 1e-6 && at.x() >= v.sole_end - 1e-6 && distance(at, rim, v.white_line) < 0.05)
        on_rim_.insert(p);
      if (at.x() >= plan_.packing_end - 1e-6 && at.x() <= edge_front + 1e-6 && distance(at, edge, edge_front) < 0.05)
        on_edge_.insert(p);
    }
    for (const auto& [p, ends] : ends_) {
      const auto& at = tri_.X[static_cast<std::size_t>(p)];
      if (on_rim_.contains(ends[0]) && on_rim_.contains(ends[1]) && distance(at, rim, v.white_line) < 1)
        on_rim_.insert(p);
      if (on_edge_.contains(ends[0]) && on_edge_.contains(ends[1]) && distance(at, edge, edge_front) < 1)
        on_edge_.insert(p);
    }
  }

  /// About how far a point lies from a curve z = f(x) that starts at x = front with z = 0, measured across the curve.
  template <class Function>
  static double distance(const Eigen::Vector2d& p, const Function& f, double front) {
    if (std::abs(p.x() - front) < 0.02 && p.y() < 0.3) return 0;
    const double h = 1e-3, x = std::min(p.x(), front - 2 * h);
    const double slope = (f(x - h) - f(x + h)) / (2 * h);
    return std::abs(p.y() - f(p.x())) / std::hypot(1, slope);
  }

  void collect(const Key& key, int id) {
    if (key.stack != Stack::foot) return;
    if (horn_.contains(id) && on_rim_.contains(key.plan)) core_.rim.push_back(id);
    const Vec3& X = core_.X[static_cast<std::size_t>(id)];
    if (!packing_.contains(id) || !on_edge_.contains(key.plan) || X.y() > 1e-9) return;
    const double h = 1e-3, front = plan_.of.shoe.inner_toe;
    Vec3 n{1, 0, 0};
    if (X.x() < front - 0.02) {
      const double slope = (plan_.shoe_inner(X.x() - h) - plan_.shoe_inner(std::min(X.x() + h, front))) / (2 * h);
      n = Vec3{slope, 0, 1}.normalized();
    }
    core_.sides.emplace_back(id, n);
  }

 public:
  std::set<int> bone_, ring_, plate_, lying_;

 private:
  const FootPlan& plan_;
  const CoreDivisions& d_;
  const PlanTriangles& tri_;
  Levels levels_;
  std::vector<Heights> heights_;
  std::map<int, std::array<int, 2>> ends_;  ///< corners on either side of a mid-side node
  std::map<Key, int> id_;
  std::set<int> packing_, horn_, on_rim_, on_edge_;
  Core core_;
};

}  // namespace

Core foot_core(const FootPlan& plan, const CoreDivisions& divisions) {
  const PlanTriangles tri = plan_triangles(plan, divisions.size);
  Builder builder(plan, divisions, tri);
  Core core = builder.build();
  core.bone.assign(builder.bone_.begin(), builder.bone_.end());
  core.ground_ring.assign(builder.ring_.begin(), builder.ring_.end());
  for (const int n : builder.plate_)
    if (!builder.ring_.contains(n)) core.ground_plate.push_back(n);
  core.ground_packing.assign(builder.lying_.begin(), builder.lying_.end());
  return core;
}

}  // namespace hoofload::tests
