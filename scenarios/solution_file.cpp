#include "scenarios/solution_file.hpp"

#include <cstdint>
#include <cstring>
#include <nlohmann/json.hpp>

#include "solver/model.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

template <class Number>
json packed(const std::vector<Number>& values) {
  std::vector<std::uint8_t> bytes(values.size() * sizeof(Number));
  if (!bytes.empty()) std::memcpy(bytes.data(), values.data(), bytes.size());
  return json::binary(std::move(bytes));
}

json packed(const Eigen::VectorXd& v) { return packed(std::vector<double>(v.data(), v.data() + v.size())); }

template <class Number>
std::vector<Number> unpacked(const json& j) {
  const json::binary_t& bytes = j.get_binary();
  if (bytes.size() % sizeof(Number) != 0) throw std::invalid_argument("numbers are cut off");
  std::vector<Number> values(bytes.size() / sizeof(Number));
  if (!values.empty()) std::memcpy(values.data(), bytes.data(), bytes.size());
  return values;
}

Eigen::VectorXd unpacked_vector(const json& j) {
  const auto values = unpacked<double>(j);
  return Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

json of(const std::optional<double>& x) { return x ? json(*x) : json(); }
std::optional<double> optional_of(const json& j) {
  return j.is_null() ? std::optional<double>() : std::optional<double>(j.get<double>());
}
json of(const solver::Vec2& v) { return json::array({v.x(), v.y()}); }
solver::Vec2 vec2_of(const json& j) { return {j.at(0).get<double>(), j.at(1).get<double>()}; }

json of(const std::vector<solver::MixedState>& mixed) {
  std::vector<double> numbers;
  for (const solver::MixedState& m : mixed)
    numbers.insert(numbers.end(), {m.bubble[0], m.bubble[1], m.pressure[0], m.pressure[1], m.pressure[2]});
  return packed(numbers);
}

std::vector<solver::MixedState> mixed_of(const json& j) {
  const auto n = unpacked<double>(j);
  std::vector<solver::MixedState> mixed(n.size() / 5);
  for (std::size_t k = 0; k < mixed.size(); ++k)
    mixed[k] = {{n[5 * k], n[5 * k + 1]}, {n[5 * k + 2], n[5 * k + 3], n[5 * k + 4]}};
  return mixed;
}

json of(const std::vector<solver::ContactStatus>& contacts) {
  std::vector<double> numbers;
  std::vector<std::int32_t> what;
  for (const solver::ContactStatus& c : contacts) {
    numbers.insert(numbers.end(), {c.reference, c.traction, c.offset_normal, c.offset_tangent});
    what.insert(what.end(), {c.closed ? 1 : 0, static_cast<std::int32_t>(c.tangential), c.toggles, c.dormant ? 1 : 0});
  }
  return {{"numbers", packed(numbers)}, {"what", packed(what)}};
}

std::vector<solver::ContactStatus> contacts_of(const json& j) {
  const auto n = unpacked<double>(j.at("numbers"));
  const auto what = unpacked<std::int32_t>(j.at("what"));
  if (n.size() != what.size() || n.size() % 4 != 0) throw std::invalid_argument("contacts are cut off");
  std::vector<solver::ContactStatus> contacts(n.size() / 4);
  for (std::size_t k = 0; k < contacts.size(); ++k) {
    solver::ContactStatus& c = contacts[k];
    c.reference = n[4 * k], c.traction = n[4 * k + 1], c.offset_normal = n[4 * k + 2], c.offset_tangent = n[4 * k + 3];
    c.closed = what[4 * k] != 0, c.toggles = what[4 * k + 2], c.dormant = what[4 * k + 3] != 0;
    if (what[4 * k + 1] < 0 || what[4 * k + 1] > 2) throw std::invalid_argument("no such contact");
    c.tangential = static_cast<solver::Tangential>(what[4 * k + 1]);
  }
  return contacts;
}

json of(const solver::State& state) {
  json bounds = json::array();
  for (const auto& group : state.spring_bounds) bounds.push_back(packed(group));
  return {{"q", packed(state.q)}, {"mixed", of(state.mixed)}, {"contact", of(state.contact)}, {"bounds", bounds}};
}

solver::State state_of(const json& j) {
  solver::State state{unpacked_vector(j.at("q")), mixed_of(j.at("mixed")), contacts_of(j.at("contact")), {}};
  for (const json& group : j.at("bounds")) state.spring_bounds.push_back(unpacked<double>(group));
  return state;
}

json of(const solver::Cable& c) {
  return {{"insertion", of(c.insertion)}, {"pulley", of(c.pulley)},       {"radius", c.radius},
          {"joint", of(c.joint)},         {"arm", of(c.arm)},             {"extension", c.extension},
          {"stiffness", c.stiffness},     {"slack_length", c.slack_length}, {"tension", of(c.tension)}};
}

solver::Cable cable_of(const json& j) {
  return {vec2_of(j.at("insertion")), vec2_of(j.at("pulley")), j.at("radius"),       vec2_of(j.at("joint")),
          vec2_of(j.at("arm")),       j.at("extension"),       j.at("stiffness"), j.at("slack_length"),
          optional_of(j.at("tension"))};
}

json of(const solver::Loading& l) {
  return {{"normal", l.normal_force},          {"tangential", l.tangential_force}, {"ramp", l.ramp},
          {"distance", of(l.hold_distance)},   {"offset", of(l.hold_offset)},      {"pitch", of(l.hold_pitch)},
          {"cable", l.cable ? of(*l.cable) : json()}};
}

solver::Loading loading_of(const json& j) {
  solver::Loading l{j.at("normal"), j.at("tangential"), j.at("ramp"), optional_of(j.at("distance")),
                    optional_of(j.at("offset")), optional_of(j.at("pitch")), {}};
  if (!j.at("cable").is_null()) l.cable = cable_of(j.at("cable"));
  return l;
}

json of(const solver::PathReport& p) {
  return {{"reached", p.reached},   {"steps", p.steps},   {"iterations", p.iterations}, {"factorisations", p.factorisations},
          {"shifts", p.shifts}, {"residual", p.residual}, {"energy", p.energy}};
}

solver::PathReport path_of(const json& j) {
  return {solver::Outcome::converged, j.at("reached"), j.at("steps"),    j.at("iterations"),
          j.at("factorisations"),     j.at("shifts"),  j.at("residual"), j.at("energy")};
}

json of(const PhaseSolution& s) {
  return {{"phase", static_cast<int>(s.phase)},   {"state", of(s.state)},
          {"loading", of(s.loading)},             {"path", of(s.path)},
          {"reactions", packed(s.reactions)},     {"touching", s.touching},
          {"cable_tension", s.cable_tension},     {"moment", s.moment},
          {"rolled_moment", s.rolled_moment},     {"rolled_cop", s.rolled_cop},
          {"rolled_pivot", of(s.rolled_pivot)},   {"remark", s.remark}};
}

PhaseSolution phase_of(const json& j) {
  PhaseSolution s;
  s.phase = static_cast<Phase>(j.at("phase").get<int>());
  s.state = state_of(j.at("state"));
  s.loading = loading_of(j.at("loading"));
  s.path = path_of(j.at("path"));
  s.reactions = unpacked_vector(j.at("reactions"));
  s.touching = j.at("touching"), s.cable_tension = j.at("cable_tension"), s.moment = j.at("moment");
  s.rolled_moment = j.at("rolled_moment"), s.rolled_cop = j.at("rolled_cop");
  s.rolled_pivot = vec2_of(j.at("rolled_pivot"));
  s.remark = j.at("remark");
  s.solved = true;
  return s;
}

constexpr const char* kKind = "hoofload solved phases";

}  // namespace

std::string to_bytes(const StoredSolution& stored, const std::string& program) {
  json phases = json::array(), slack = json::array();
  for (const PhaseSolution& s : stored.phases) phases.push_back(of(s));
  for (const auto& [phase, length] : stored.slack) slack.push_back(json::array({static_cast<int>(phase), length}));
  const json j{{"kind", kKind}, {"program", program}, {"key", stored.key}, {"phases", phases}, {"slack", slack}};
  std::string bytes;
  json::to_cbor(j, bytes);
  return bytes;
}

std::optional<StoredSolution> from_bytes(std::string_view bytes, const std::string& program) {
  try {
    const json j = json::from_cbor(bytes);
    if (j.at("kind") != kKind || j.at("program") != program) return {};
    StoredSolution stored{j.at("key"), {}, {}};
    for (const json& s : j.at("phases")) stored.phases.push_back(phase_of(s));
    for (const json& l : j.at("slack")) stored.slack.emplace_back(static_cast<Phase>(l.at(0).get<int>()), l.at(1).get<double>());
    return stored;
  } catch (const std::exception&) {  // whatever is wrong with it, it is of no use
    return {};
  }
}

bool fits(const StoredSolution& stored, const BuiltModel& built) {
  const solver::State rest = built.system->rest_state(0, 0);
  for (const PhaseSolution& s : stored.phases) {
    if (s.state.q.size() != rest.q.size() || s.reactions.size() != rest.q.size() ||
        s.state.mixed.size() != rest.mixed.size() || s.state.contact.size() != rest.contact.size() ||
        s.state.spring_bounds.size() != rest.spring_bounds.size())
      return false;
    for (std::size_t g = 0; g < rest.spring_bounds.size(); ++g)
      if (s.state.spring_bounds[g].size() != rest.spring_bounds[g].size()) return false;
  }
  return true;
}

}  // namespace hoofload::scenarios
