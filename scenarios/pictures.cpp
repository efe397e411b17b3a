#include "scenarios/pictures.hpp"

#include <array>

#include "scenarios/direction_arms.hpp"
#include "scenarios/stance_events.hpp"
#include "viz/curve_figure.hpp"
#include "viz/polar_figure.hpp"
#include "viz/profile_figure.hpp"

namespace hoofload::scenarios {

namespace {

viz::Profile profile_of(const RunResult& run, const BuiltModel& built, const PhaseResult& phase) {
  viz::Profile profile{run.run.name, {}, {}};
  for (const PressureSample& sample : sole_pressure_profile(built, phase.solution)) {
    profile.x.push_back(built.kind == ModelKind::sagittal ? -sample.X.x() : sample.X.x());
    profile.pressure.push_back(sample.kPa);
  }
  return profile;
}

Picture profile_picture(const std::vector<RunResult>& results, ModelKind model, Phase phase) {
  viz::ProfileFigure figure;
  figure.heading = {"Pressure on the sole",
                    std::string(name_of(phase)),
                    model == ModelKind::sagittal ? "sagittal core in 3D capsule" : "axisymmetric",
                    {}};
  figure.along = model == ModelKind::sagittal ? viz::ProfileAlong::behind_toe : viz::ProfileAlong::radius;
  for (const RunResult& run : results)
    for (const ModelResult& m : run.models) {
      const PhaseResult* solved = m.kind == model && m.built ? find_phase(run, model, phase) : nullptr;
      if (solved == nullptr) continue;
      if (figure.landmarks.empty())
        figure.landmarks.push_back(
            {"tip of the bone", model == ModelKind::sagittal ? -m.built->tip_x : m.built->tip_x});
      figure.profiles.push_back(profile_of(run, *m.built, *solved));
    }
  if (figure.profiles.empty()) return {};
  return {std::string(name_of(phase)) + "_sole-pressure_" + std::string(name_of(model)) + ".svg",
          viz::profile_figure(figure)};
}

const PhaseResult* solved_sagittal(const RunResult& run, Phase phase, const BuiltModel*& built) {
  for (const ModelResult& m : run.models)
    if (m.kind == ModelKind::sagittal && m.built) {
      built = m.built.get();
      return find_phase(run, ModelKind::sagittal, phase);
    }
  return nullptr;
}

struct StanceCurve {
  std::string_view key, file, heading, axis;
};

constexpr std::array kStanceCurves = {
    StanceCurve{"ddft_moment", "stance_tendon-moment.svg", "Moment of the deep flexor tendon over stance",
                "moment about the coffin joint, N m"},
    StanceCurve{"navicular_force", "stance_navicular-force.svg", "Force on the navicular bone over stance", "force, N"},
    StanceCurve{"cop", "stance_cop.svg", "Centre of pressure over stance", "ahead of the coffin joint, mm"}};

}  // namespace

std::vector<Picture> direction_plots(const std::vector<RunResult>& results, Phase phase) {
  if (phase != Phase::breakover) return {};
  viz::PolarFigure figure{.heading = {"Breakover arm by direction",
                                      std::string(name_of(phase)),
                                      "sagittal model straight ahead, shoe's ground outline to the sides; mm",
                                      {}},
                          .centre = "coffin joint",
                          .left = "lateral",
                          .right = "medial",
                          .ahead = "toe",
                          .curves = {}};
  for (const RunResult& run : results) {
    const BuiltModel* built = nullptr;
    const PhaseResult* solved = solved_sagittal(run, phase, built);
    if (solved == nullptr) continue;
    viz::PolarCurve curve{run.run.name, {}, {}};
    for (const DirectionArm& a : arms_by_direction(*built, solved->solution)) {
      curve.angle.push_back(a.angle);
      curve.length.push_back(a.arm);
    }
    if (!curve.angle.empty()) figure.curves.push_back(std::move(curve));
  }
  if (figure.curves.empty()) return {};
  return {{std::string(name_of(phase)) + "_arm-by-direction.svg", viz::polar_figure(figure)}};
}

std::vector<Picture> stance_curves(const std::vector<RunResult>& results, Phase phase) {
  std::vector<Picture> pictures;
  if (phase != Phase::stance) return pictures;
  const std::string gait = results.front().run.load.gait == Gait::walk ? "walk" : "trot";
  for (const StanceCurve& c : kStanceCurves) {
    viz::CurveFigure figure{.heading = {std::string(c.heading), "stance, " + gait, "sagittal core in 3D capsule", {}},
                            .x = {"share of stance, %", viz::Range{0, 100}},
                            .y = {std::string(c.axis)},
                            .curves = {},
                            .landmarks = {}};
    for (const RunResult& run : results) {
      const BuiltModel* built = nullptr;
      const PhaseResult* solved = solved_sagittal(run, phase, built);
      if (solved == nullptr || !solved->solution.series) continue;
      const StanceSeries& series = *solved->solution.series;
      std::vector<double> percent;
      for (const double share : shares_of(series)) percent.push_back(100 * share);
      figure.curves.push_back({run.run.name, std::move(percent), values_of(series, c.key)});
      if (!figure.landmarks.empty()) continue;
      for (const StanceEvent& e : series.events)
        if (e.name == kHeelOff) figure.landmarks.push_back({"heel-off, " + run.run.name, 100 * e.share});
    }
    if (figure.curves.empty()) return {};
    pictures.push_back({std::string(c.file), viz::curve_figure(figure)});
  }
  return pictures;
}

std::vector<Picture> pressure_profiles(const std::vector<RunResult>& results, Phase phase) {
  std::vector<Picture> pictures;
  for (const ModelKind model : {ModelKind::axisymmetric, ModelKind::sagittal})
    if (Picture picture = profile_picture(results, model, phase); !picture.svg.empty())
      pictures.push_back(std::move(picture));
  return pictures;
}

std::vector<Picture> all_pictures(const std::vector<RunResult>& results) {
  std::vector<Picture> pictures;
  if (results.empty()) return pictures;
  for (const Phase phase : results.front().run.load.phases)
    for (auto* make : {side_views, axisymmetric_sections, pressure_profiles, direction_plots, stance_curves})
      for (Picture& picture : make(results, phase)) pictures.push_back(std::move(picture));
  return pictures;
}

}  // namespace hoofload::scenarios
