#include "scenarios/effects_amounts.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "scenarios/bars.hpp"
#include "scenarios/tendon.hpp"
#include "solver/brick.hpp"
#include "solver/fields.hpp"

namespace hoofload::scenarios {

namespace {

const ModelResult& model_of(const RunResult& run, ModelKind kind) {
  for (const ModelResult& model : run.models)
    if (model.kind == kind && model.built) return model;
  throw std::runtime_error(run.run.name + ": the model was not built");
}

const PhaseResult& phase_of(const RunResult& run, ModelKind kind, Phase phase) {
  for (const PhaseResult& p : model_of(run, kind).phases) {
    if (p.phase != phase) continue;
    if (!p.solved) throw std::runtime_error(run.run.name + ": " + p.why);
    return p;
  }
  throw std::runtime_error(run.run.name + ": the phase is not part of the case");
}

const std::vector<RunResult>& runs_of(const EffectCases& cases, std::string_view name) {
  const auto it = cases.find(name);
  if (it == cases.end()) throw std::runtime_error("case not solved: " + std::string(name));
  return it->second;
}

const RunResult& run_of(const EffectCases& cases, std::string_view case_name, std::string_view name) {
  for (const RunResult& run : runs_of(cases, case_name))
    if (run.run.name == name) return run;
  throw std::runtime_error("no run " + std::string(name));
}

double value_in(const PhaseResult& phase, std::string_view key) {
  const auto it = phase.values.find(key);
  if (it == phase.values.end()) throw std::runtime_error("not given there: " + std::string(key));
  return it->second.value;
}

EffectPlace elsewhere(EffectPlace at, std::string_view run) {
  at.run = run;
  return at;
}

Amount change(double before, double after, bool of_the_whole) {
  return {after - before, std::max(std::abs(before), std::abs(after)), of_the_whole};
}
Amount percent(double before, double after, bool of_the_whole) {
  return {100 * (after - before) / std::abs(before), 100.0, of_the_whole};
}

double cushion_pressure(const BuiltModel& built, const PhaseSolution& phase) {
  double sum = 0, volume = 0;
  for (const auto& block : built.system->model().solids) {
    if (block.region != "cushion") continue;
    const auto means = solver::element_stresses(*built.system, phase.state, block);
    const auto points = static_cast<std::size_t>(block.points_per_element);
    for (std::size_t e = 0; e < means.size(); ++e) {
      double part = 0;
      for (std::size_t q = e * points; q < (e + 1) * points; ++q) part += block.points[q].weight;
      sum += part * solver::pressure_of(means[e]);
      volume += part;
    }
  }
  if (volume == 0) throw std::runtime_error("this model has no digital cushion");
  return 1000 * sum / volume;
}

double gauge(const BuiltModel& built, const PhaseSolution& phase, GaugeAxis axis, double height) {
  const auto& shell = built.capsule->shell;
  const mesh::GaugePoint at = mesh::outer_surface_point(shell, 0, height);
  const auto& model = built.system->model();
  const Eigen::VectorXd x = built.system->displacements(phase.state);
  const auto& hex = shell.mesh.hex[static_cast<std::size_t>(at.brick)];
  solver::BrickNodes X, u;
  for (int a = 0; a < 20; ++a) {
    const int node = hex[static_cast<std::size_t>(a)];
    X.col(a) = model.X_space[static_cast<std::size_t>(node)];
    u.col(a) = x.segment<3>(solver::space_dof(model, node, 0));
  }
  // The outer face's tangents on the mid-line: up the generator, and z.
  const Eigen::Vector3d direction = axis == GaugeAxis::along ? at.direction : Eigen::Vector3d::UnitZ();
  return 1e6 * solver::strain_along(solver::brick_strain(X, u, at.xi), direction);
}

/// (centre of pressure, strain) of all runs of a case, by centre of pressure.
std::vector<std::pair<double, double>> strain_curve(const EffectCases& cases, std::string_view name, GaugeAxis axis,
                                                    double height) {
  std::vector<std::pair<double, double>> curve;
  for (const RunResult& run : runs_of(cases, name)) {
    const PhaseResult& phase = phase_of(run, ModelKind::sagittal, Phase::press);
    curve.emplace_back(value_in(phase, "cop"),
                       gauge(*model_of(run, ModelKind::sagittal).built, phase.solution, axis, height));
  }
  std::sort(curve.begin(), curve.end());
  return curve;
}

double between(double a, double b, double share) { return a + share * (b - a); }

}  // namespace

double reading(const EffectCases& cases, const EffectPlace& at, std::string_view key) {
  return value_in(phase_of(run_of(cases, at.case_name, at.run), at.model, at.phase), key);
}

AmountOf value_of(EffectPlace at, std::string_view key) {
  return [=](const EffectCases& cases) { return Amount{reading(cases, at, key), {}, is_of_the_whole(key)}; };
}

AmountOf sum_of(EffectPlace at, std::string_view key, std::string_view other) {
  return [=](const EffectCases& cases) {
    const bool of_the_whole = is_of_the_whole(key) && is_of_the_whole(other);
    return Amount{reading(cases, at, key) + reading(cases, at, other), {}, of_the_whole};
  };
}

AmountOf change_of(EffectPlace baseline, std::string_view run, std::string_view key) {
  return [=](const EffectCases& cases) {
    return change(reading(cases, baseline, key), reading(cases, elsewhere(baseline, run), key), is_of_the_whole(key));
  };
}

AmountOf percent_of(EffectPlace baseline, std::string_view run, std::string_view key) {
  return [=](const EffectCases& cases) {
    return percent(reading(cases, baseline, key), reading(cases, elsewhere(baseline, run), key), is_of_the_whole(key));
  };
}

AmountOf peak_ground_pressure_change(EffectPlace baseline, std::string_view run) {
  return [=](const EffectCases& cases) {
    const auto peak = [&](const EffectPlace& at) {
      return std::max({reading(cases, at, "ground_pressure_toe"), reading(cases, at, "ground_pressure_middle"),
                       reading(cases, at, "ground_pressure_heel")});
    };
    return percent(peak(baseline), peak(elsewhere(baseline, run)), false);
  };
}

AmountOf coffin_turn_per_degree(EffectPlace baseline, std::string_view run) {
  return [=](const EffectCases& cases) {
    const Case& raised = run_of(cases, baseline.case_name, run).run;
    const double elevation = raised.shoeing.shoe.elevation / mesh::degree;
    const double turn = reading(cases, elsewhere(baseline, run), "palmar_angle_loaded") -
                        reading(cases, baseline, "palmar_angle_loaded") - posture_of(raised).extension / mesh::degree;
    return Amount{turn / elevation, 1.0, true};
  };
}

AmountOf navicular_slope_between_feet(std::string_view flatter, std::string_view steeper) {
  return [=](const EffectCases& cases) {
    const auto force = [&](std::string_view name) {
      return reading(cases, {name, "baseline", Phase::stance}, "navicular_force");
    };
    const auto angle = [&](std::string_view name) {
      return run_of(cases, name, "baseline").run.foot.palmar_angle / mesh::degree;
    };
    const double mean = 0.5 * (force(flatter) + force(steeper));
    const double span = angle(steeper) - angle(flatter);
    return Amount{100 * (force(steeper) - force(flatter)) / mean / span, 100 / span, true};
  };
}

AmountOf cushion_pressure_change(EffectPlace from, Phase to) {
  return [=](const EffectCases& cases) {
    const RunResult& run = run_of(cases, from.case_name, from.run);
    const BuiltModel& built = *model_of(run, from.model).built;
    return change(cushion_pressure(built, phase_of(run, from.model, from.phase).solution),
                  cushion_pressure(built, phase_of(run, from.model, to).solution), true);
  };
}

AmountOf dorsal_strain(std::string_view case_name, GaugeAxis axis, double height, double cop) {
  return [=](const EffectCases& cases) {
    const auto curve = strain_curve(cases, case_name, axis, height);
    std::size_t k = 1;
    while (k + 1 < curve.size() && curve[k].first < cop) ++k;
    const double share = (cop - curve[k - 1].first) / (curve[k].first - curve[k - 1].first);
    return Amount{between(curve[k - 1].second, curve[k].second, share), {}, false};
  };
}

AmountOf cop_of_dorsal_strain(std::string_view case_name, double height, double strain) {
  return [=](const EffectCases& cases) {
    const auto curve = strain_curve(cases, case_name, GaugeAxis::along, height);
    for (std::size_t k = 1; k < curve.size(); ++k) {
      const double a = curve[k - 1].second - strain, b = curve[k].second - strain;
      if (a * b <= 0 && a != b) return Amount{between(curve[k - 1].first, curve[k].first, a / (a - b)), {}, false};
    }
    throw std::runtime_error("no centre of pressure among the runs gives that strain");
  };
}

}  // namespace hoofload::scenarios
