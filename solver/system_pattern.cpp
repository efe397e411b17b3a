// Construction of a System: who depends on which unknowns, and where each product lands in the matrix.
#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>

#include "solver/ground.hpp"
#include "solver/scatter_pattern.hpp"
#include "solver/system.hpp"

namespace hoofload::solver {

namespace {

std::vector<std::vector<int>> dofs_of(const SolidBlock& block) {
  std::vector<std::vector<int>> all;
  all.reserve(block.nodes.size());
  for (const auto& nodes : block.nodes) {
    std::vector<int> dofs;
    for (int node : nodes) {
      dofs.push_back(plane_dof(node, 0));
      dofs.push_back(plane_dof(node, 1));
    }
    all.push_back(std::move(dofs));
  }
  return all;
}

std::vector<std::vector<int>> dofs_of(const Model& model, const LayerBlock& block) {
  std::vector<std::vector<int>> all;
  for (const auto& nodes : block.nodes) {
    std::vector<int> dofs;
    for (int node : nodes)
      for (int c = 0; c < 3; ++c) dofs.push_back(space_dof(model, node, c));
    all.push_back(std::move(dofs));
  }
  return all;
}

std::vector<std::vector<int>> dofs_of(const SpringGroup& group) {
  std::vector<std::vector<int>> all;
  for (const auto& spring : group.springs) {
    std::vector<int> dofs;
    for (const auto& c : spring.measure) dofs.push_back(c.dof);
    all.push_back(std::move(dofs));
  }
  return all;
}

/// A dof that a measure names twice is one dof: the scatter takes each pair of unknowns once.
void merge_repeated_dofs(Spring& spring) {
  std::map<int, double> merged;
  for (const auto& [dof, c] : spring.measure) merged[dof] += c;
  spring.measure.clear();
  for (const auto& [dof, c] : merged) spring.measure.push_back({dof, c});
}

/// Index of entry (row >= col) in the value array of a lower-triangular pattern.
int place_of(const LowerPattern& pattern, int row, int col) {
  const auto first = pattern.inner.begin() + pattern.outer[static_cast<std::size_t>(col)];
  const auto end = pattern.inner.begin() + pattern.outer[static_cast<std::size_t>(col) + 1];
  return static_cast<int>(std::lower_bound(first, end, row) - pattern.inner.begin());
}

}  // namespace

System::System(Model model) : model_(std::move(model)) {
  for (auto& block : model_.solids) {
    block.first_state = mixed_count_;
    if (block.formulation == Formulation::mixed) mixed_count_ += static_cast<int>(block.nodes.size());
  }
  for (auto& group : model_.springs)
    for (auto& spring : group.springs) merge_repeated_dofs(spring);
  number_contacts();
  build_rows();
  build_pattern();
}

void System::number_contacts() {
  const auto n = model_.X.size();
  ground_index_.assign(n, -1);
  master_of_.assign(n, -1);
  slave_normal_.assign(n, Vec2::Zero());
  for (const auto& pair : model_.pairs) {
    const int first = static_cast<int>(contacts_.size());
    for (std::size_t k = 0; k < pair.slave.size(); ++k) {
      const auto s = static_cast<std::size_t>(pair.slave[k]);
      if (master_of_[s] >= 0)
        throw std::invalid_argument("pair '" + pair.name + "': a node is slave in two interfaces");
      master_of_[s] = pair.master[k];
      slave_normal_[s] = pair.normal[k];
      contacts_.push_back({plane_dof(pair.slave[k], 0), plane_dof(pair.slave[k], 1), pair.gap[k], pair.interference[k],
                           pair.friction, pair.bond == Bond::tied});
    }
    pair_ranges_.emplace_back(first, static_cast<int>(contacts_.size()));
  }
  first_ground_contact_ = static_cast<int>(contacts_.size());
  for (std::size_t k = 0; k < model_.ground.nodes.size(); ++k) {
    const int node = model_.ground.nodes[k];
    if (master_of_[static_cast<std::size_t>(node)] >= 0)
      throw std::invalid_argument("a ground node is also the slave of a pair");
    ground_index_[static_cast<std::size_t>(node)] = static_cast<int>(k);
    const double mu = model_.ground.friction.empty() ? 0.0 : model_.ground.friction[k];
    const double area = model_.ground.bed ? model_.ground.area.at(k) : 0.0;
    contacts_.push_back({plane_dof(node, 0), plane_dof(node, 1), 0, 0, mu, false, area});
  }
  for (const auto& pair : model_.pairs)
    for (int m : pair.master)
      if (master_of_[static_cast<std::size_t>(m)] >= 0)
        throw std::invalid_argument("pair '" + pair.name + "': a master node is the slave of another interface");
}

void System::build_rows() {
  row_of_dof_.assign(static_cast<std::size_t>(dof_count(model_)), -1);
  const int g0 = ground_dof(model_, 0);
  const auto entry = [&](int unknown, double c) {
    rows_.unknown.push_back(unknown);
    rows_.c.push_back(c);
  };
  const auto end_row = [&](int dof) {
    row_of_dof_[static_cast<std::size_t>(dof)] = static_cast<int>(rows_.first.size()) - 1;
    rows_.first.push_back(static_cast<int>(rows_.unknown.size()));
  };
  for (int node : model_.ground.nodes)
    for (int c = 0; c < 2; ++c) {
      for (int unknown : {plane_dof(node, 0), plane_dof(node, 1), g0, g0 + 1, g0 + 2}) entry(unknown, 0);
      end_row(plane_dof(node, c));
    }
  for (const auto& pair : model_.pairs) {
    for (std::size_t k = 0; k < pair.slave.size(); ++k) {
      const Vec2 n = pair.normal[k], t{n.y(), -n.x()};
      for (int c = 0; c < 2; ++c) {
        entry(plane_dof(pair.slave[k], 0), n[c]);
        entry(plane_dof(pair.slave[k], 1), t[c]);
        const int master = plane_dof(pair.master[k], c);
        const int r = row_of(master);
        if (r < 0) {
          entry(master, 1);
        } else {
          const auto row = static_cast<std::size_t>(r);
          for (int p = rows_.first[row]; p < rows_.first[row + 1]; ++p)
            entry(rows_.unknown[static_cast<std::size_t>(p)], rows_.c[static_cast<std::size_t>(p)]);
        }
        end_row(plane_dof(pair.slave[k], c));
      }
    }
  }
}

std::vector<double> System::row_coefficients(const State& state) const {
  std::vector<double> c = rows_.c;
  const int g0 = ground_dof(model_, 0);
  const auto& q = state.q;
  const auto row = [&](int dof) {
    return c.begin() + rows_.first[static_cast<std::size_t>(row_of_dof_[static_cast<std::size_t>(dof)])];
  };
  for (int node : model_.ground.nodes) {
    const auto D = ground_gradient(q[plane_dof(node, 0)], q[plane_dof(node, 1)], q[g0], q[g0 + 1], q[g0 + 2]);
    for (int i = 0; i < 2; ++i)
      for (int k = 0; k < 5; ++k) row(plane_dof(node, i))[k] = D(i, k);
  }
  for (const auto& pair : model_.pairs) {
    for (std::size_t k = 0; k < pair.slave.size(); ++k) {
      if (ground_index_[static_cast<std::size_t>(pair.master[k])] < 0) continue;
      for (int i = 0; i < 2; ++i)
        std::copy_n(row(plane_dof(pair.master[k], i)), 5, row(plane_dof(pair.slave[k], i)) + 2);
    }
  }
  return c;
}

void System::add_group(ScatterMap& map, const std::vector<std::vector<int>>& dofs) const {
  map.first_dof.push_back(0);
  map.first_unknown.push_back(0);
  map.first_place.push_back(0);
  map.first_position.push_back(0);
  for (const auto& local : dofs) {
    bool plain = true;
    std::vector<int> mentioned;  // dof by dof
    for (int dof : local) {
      const int r = row_of(dof);
      if (r < 0) {
        mentioned.push_back(dof);
      } else {
        plain = false;
        const auto row = static_cast<std::size_t>(r);
        mentioned.insert(mentioned.end(), rows_.unknown.begin() + rows_.first[row],
                         rows_.unknown.begin() + rows_.first[row + 1]);
      }
    }
    std::vector<int> unknowns = mentioned;
    if (!plain) {
      std::sort(unknowns.begin(), unknowns.end());
      unknowns.erase(std::unique(unknowns.begin(), unknowns.end()), unknowns.end());
      for (int u : mentioned)
        map.positions.push_back(
            static_cast<int>(std::lower_bound(unknowns.begin(), unknowns.end(), u) - unknowns.begin()));
    }
    map.first_position.push_back(static_cast<int>(map.positions.size()));
    map.dofs.insert(map.dofs.end(), local.begin(), local.end());
    map.unknowns.insert(map.unknowns.end(), unknowns.begin(), unknowns.end());
    map.plain.push_back(plain ? 1 : 0);
    map.first_dof.push_back(static_cast<int>(map.dofs.size()));
    map.first_unknown.push_back(static_cast<int>(map.unknowns.size()));
    map.first_place.push_back(map.first_place.back() + static_cast<int>(unknowns.size() * (unknowns.size() + 1) / 2));
  }
  map.places.resize(static_cast<std::size_t>(map.first_place.back()));
}

namespace {

void add_couplings(ScatterMap& map, std::vector<Coupling>& couplings) {
  for (std::size_t e = 0; e + 1 < map.first_unknown.size(); ++e) {
    const auto count = static_cast<std::size_t>(map.first_unknown[e + 1] - map.first_unknown[e]);
    couplings.push_back({{map.unknowns.data() + map.first_unknown[e], count}, map.places.data() + map.first_place[e]});
  }
}

/// Packed triangles of the constant elements, over full dofs.
SparseMatrix sum_of(const std::vector<ConstantBlock>& blocks, int n) {
  std::vector<Eigen::Triplet<double>> triplets;
  for (const auto& block : blocks)
    for (std::size_t e = 0; e < block.dofs.size(); ++e) {
      const auto& d = block.dofs[e];
      for (std::size_t b = 0; b < d.size(); ++b)
        for (std::size_t a = b; a < d.size(); ++a)
          triplets.emplace_back(std::max(d[a], d[b]), std::min(d[a], d[b]),
                                block.K[e](static_cast<Eigen::Index>(a), static_cast<Eigen::Index>(b)));
    }
  SparseMatrix sum(n, n);
  sum.setFromTriplets(triplets.begin(), triplets.end());
  return sum;
}

}  // namespace

void System::build_pattern() {
  const int n = dof_count(model_);
  for (const auto& block : model_.solids) add_group(solid_maps_.emplace_back(), dofs_of(block));
  for (const auto& block : model_.layers) add_group(layer_maps_.emplace_back(), dofs_of(model_, block));
  for (const auto& group : model_.springs) add_group(spring_maps_.emplace_back(), dofs_of(group));
  std::vector<Coupling> couplings;
  for (auto* maps : {&solid_maps_, &layer_maps_, &spring_maps_})
    for (auto& map : *maps) add_couplings(map, couplings);
  for (const auto& block : model_.constants)
    for (const auto& dofs : block.dofs) {
      for (int dof : dofs)
        if (row_of_dof_[static_cast<std::size_t>(dof)] >= 0)
          throw std::invalid_argument("region '" + block.region + "': constant elements may not touch contact nodes");
      couplings.push_back({dofs, nullptr});
    }
  const int g0 = ground_dof(model_, 0);
  const std::size_t pairs = 15;  // of a ground node's (g, tau, d, s, theta)
  std::vector<std::array<int, 5>> grounded;
  for (int node : model_.ground.nodes)
    grounded.push_back({plane_dof(node, 0), plane_dof(node, 1), g0, g0 + 1, g0 + 2});
  ground_places_.resize(pairs * grounded.size());
  for (std::size_t k = 0; k < grounded.size(); ++k)
    couplings.push_back({grounded[k], ground_places_.data() + pairs * k});
  pattern_ = lower_pattern(n, couplings);
  constant_full_ = sum_of(model_.constants, n);
  if (constant_full_.nonZeros() > 0) constant_values_.assign(static_cast<std::size_t>(pattern_.entries()), 0.0);
  for (int c = 0; c < n; ++c)
    for (SparseMatrix::InnerIterator it(constant_full_, c); it; ++it)
      constant_values_[static_cast<std::size_t>(place_of(pattern_, static_cast<int>(it.row()), c))] += it.value();
  theta_place_ = place_of(pattern_, g0 + 2, g0 + 2);
}

}  // namespace hoofload::solver
