// With cli_sweep.cpp the only file that includes the command-line parser, which is dear to compile.
#include "scenarios/cli.hpp"

#include "scenarios/case_keys.hpp"
#include "scenarios/case_report.hpp"
#include "scenarios/cli_sweep.hpp"
#include "scenarios/nearest.hpp"
#include "scenarios/quantity_text.hpp"
#include "scenarios/sweep_read.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>
#include <sstream>

namespace hoofload::scenarios {
namespace {

struct Arguments {
  std::string case_file;
  std::string topic;
  std::string lesson;
  std::optional<double> density;
  int port = 0;
  std::string out, report, pdf;
  std::string paper = "a4";
  bool json = false;
  bool quiet = false;
  bool markdown = false;
  std::size_t threads = 0;
  int places = 37;
  SweepArguments many;
  std::vector<std::string> by;
  ColumnChoice slopes;
};

struct OpenedCase {
  CaseReading reading;
  int code;
  std::string text = {};
};

/// Reads the case and reports its problems; code is exit_done if it may be solved.
OpenedCase open_case(const Arguments& a, const Surroundings& around) {
  const FileText file = read_text_file(a.case_file);
  if (!file.problem.empty()) {
    around.err << a.case_file << ": " << file.problem << '\n';
    return {{}, exit_system};
  }
  OpenedCase opened{read_case(file.text, a.case_file, around.load_known().materials), exit_done, file.text};
  if (!a.quiet) around.err << errors_text(opened.reading.warnings, around.colour_err);
  if (opened.reading.errors.empty()) return opened;
  opened.code = exit_bad_case;
  if (a.json) {
    around.out << check_json(a.case_file, opened.reading).dump(2) << '\n';
  } else {
    around.err << errors_text(opened.reading.errors, around.colour_err);
  }
  return opened;
}

int check(const Arguments& a, const Surroundings& around) {
  const OpenedCase opened = open_case(a, around);
  if (opened.code != exit_done) return opened.code;
  if (a.json)
    around.out << check_json(a.case_file, opened.reading).dump(2) << '\n';
  else
    around.out << check_text(a.case_file, opened.reading);
  return exit_done;
}

/// Where the result goes beside stdout.
void set_places(const Arguments& a, RunRequest& request) {
  if (!a.out.empty()) request.out = a.out;
  if (!a.report.empty()) request.report = a.report;
  if (!a.pdf.empty()) request.pdf = a.pdf;
  request.paper = a.paper == "letter" ? viz::Paper::letter : viz::Paper::a4;
}

int solve(const Arguments& a, RunMode mode, const Surroundings& around) {
  OpenedCase opened = open_case(a, around);
  if (opened.code != exit_done) return opened.code;
  RunRequest request;
  request.mode = mode;
  request.case_file = a.case_file;
  request.runs = std::move(opened.reading.runs);
  request.warnings = std::move(opened.reading.warnings);
  request.case_text = std::move(opened.text);
  request.threads = a.threads;
  request.json = a.json;
  request.quiet = a.quiet;
  request.colour = around.colour_out;
  set_places(a, request);
  return around.solve(request);
}

int film(const Arguments& a, const Surroundings& around) {
  OpenedCase opened = open_case(a, around);
  if (opened.code != exit_done) return opened.code;
  return around.film({a.case_file, std::move(opened.reading.runs), a.out, a.places, a.quiet});
}

int differentiate(const Arguments& a, const Surroundings& around) {
  OpenedCase opened = open_case(a, around);
  if (opened.code != exit_done) return opened.code;
  return around.differentiate({a.case_file, std::move(opened.reading.runs), a.by, a.slopes, a.json, a.quiet});
}

RunRequest lesson_request(const Arguments& a, const CaseReading& reading, const Surroundings& around) {
  RunRequest request;
  request.case_file = "lesson " + a.lesson + (a.case_file.empty() ? "" : " " + a.case_file);
  request.runs = reading.runs;
  request.warnings = reading.warnings;
  request.json = a.json;
  request.quiet = a.quiet;
  request.colour = around.colour_out;
  set_places(a, request);
  return request;
}

/// The text of the runs is the lesson's own: a place in it would mean nothing to the reader.
void report_lesson_errors(const Arguments& a, const CaseErrors& errors, const Surroundings& around) {
  for (CaseError e : errors) {
    around.err << "lesson " << a.lesson << (a.case_file.empty() ? "" : " on " + a.case_file) << ": " << e.key << ": "
               << e.problem << (e.value.empty() ? "" : " (" + e.value + ")")
               << (e.allowed.empty() ? "" : "; allowed: " + e.allowed) << '\n';
  }
}

int unknown_lesson(const Arguments& a, const Surroundings& around) {
  std::string allowed;
  for (const std::string_view name : lesson_names()) allowed += (allowed.empty() ? "" : ", ") + std::string(name);
  const std::string near = nearest_name(a.lesson, lesson_names());
  around.err << "lesson: there is none called '" << shown_text(a.lesson) << "'; allowed: " << allowed
             << (near.empty() ? "" : "; nearest: " + near) << '\n';
  return exit_usage;
}

int teach(const Arguments& a, const Surroundings& around) {
  const auto lesson = find_lesson(a.lesson);
  if (!lesson) return unknown_lesson(a, around);
  OpenedCase opened{{}, exit_done};
  if (!a.case_file.empty()) opened = open_case(a, around);
  if (opened.code != exit_done) return opened.code;
  const MaterialWords materials = around.load_known().materials;
  const LessonPlan plan = lesson_plan(*lesson, materials);
  const Case* baseline = opened.reading.runs.empty() ? nullptr : &opened.reading.runs.front();
  const CaseReading reading = lesson_runs(plan, baseline, a.density, materials);
  if (reading.errors.empty()) return around.teach({plan, lesson_request(a, reading, around)});
  report_lesson_errors(a, reading.errors, around);
  return exit_bad_case;
}

int explain_topic(const Arguments& a, const Surroundings& around) {
  if (a.markdown) {
    around.out << (a.topic == "quantities"    ? quantities_markdown()
                   : a.topic == "uncertainty" ? uncertainty_markdown(materials::load_catalogue())
                                              : case_keys_markdown());
    return exit_done;
  }
  if (a.topic.empty()) {
    around.out << explain_overview();
    return exit_done;
  }
  const Explainable known = around.load_known();
  if (a.json) {
    if (const auto j = explain_json(known, a.topic)) {
      around.out << j->dump(2) << '\n';
      return exit_done;
    }
  } else if (const auto text = explain(known, a.topic)) {
    around.out << *text;
    return exit_done;
  }
  const std::string near = nearest_topic(known, a.topic);
  around.err << "explain: nothing is called '" << shown_text(a.topic) << "'"
             << (near.empty() ? "" : "; nearest: " + near) << '\n';
  return exit_usage;
}

CLI::App* add_command(CLI::App& app, const char* name, const char* description, Arguments& a) {
  CLI::App* command = app.add_subcommand(name, description);
  command->add_flag("--json", a.json, "write the result as JSON to stdout");
  command->add_flag("--quiet", a.quiet, "no progress and no warnings on stderr");
  return command;
}

/// The range that the case key has, from so many times its lower end.
CLI::Range density_range(double times = 1) {
  const auto& number = std::get<NumberAt>(find_key("study.density")->binding);
  return {times * number.low, number.high, "density"};
}

}  // namespace

std::string errors_text(const CaseErrors& errors, bool colour) {
  std::string text;
  for (const CaseError& e : errors) {
    const std::string line = error_text(e);
    const std::size_t place = e.file.size() + 2 + std::to_string(e.at.line).size() + std::to_string(e.at.column).size();
    text += colour ? "\x1b[1m" + line.substr(0, place) + "\x1b[0m" + line.substr(place) + "\n" : line + "\n";
  }
  return text;
}

int run_cli(std::vector<std::string> arguments, const Surroundings& around) {
  Arguments a;
  CLI::App app{
      "Finite-element load model of the shod hoof: compares ways of shoeing one foot under stated assumptions.",
      "hoofload"};
  app.require_subcommand(1);
  app.set_version_flag("--version", around.version);
  CLI::App* checking = add_command(app, "check", "report every problem of a case; solve nothing", a);
  CLI::App* running = add_command(app, "run", "solve the runs of a case", a);
  CLI::App* comparing = add_command(app, "compare", "solve a case and compare its options with the baseline", a);
  CLI::App* sloping =
      add_command(app, "derivatives", "how much each quantity changes with each input where the case stands", a);
  sloping->add_option("CASE", a.case_file, "case file (TOML)")->required();
  sloping->add_option("--by", a.by, "number of the case, e.g. shoe.setback; left out, everything that is uncertain")
      ->allow_extra_args(false);
  add_column_choice(*sloping, a.slopes);
  CLI::App* teaching = add_command(app, "lesson", "solve a fixed set of runs around one question and tell of it", a);
  CLI::App* effects = app.add_subcommand("check-effects", "solve what was published and compare with it");
  effects->add_flag("--quiet", a.quiet, "no progress on stderr");
  effects->add_flag("--markdown", a.markdown, "write docs/effects.md to stdout");
  effects->add_option("--density", a.density, "mesh divisions relative to the default; the bars take half of it")
      ->check(density_range(2));
  CLI::App* serving = app.add_subcommand("serve", "show the page on this computer: see and compare in a browser");
  serving->add_option("--port", a.port, "port of 127.0.0.1; left out, any that is free")->check(CLI::Range(1, 65535));
  serving->add_flag("--quiet", a.quiet, "nothing but the address");
  CLI::App* filming = app.add_subcommand("film", "solve the stance and write it as fields over time (VTU, PVD)");
  filming->add_option("CASE", a.case_file, "case file (TOML)")->required();
  filming->add_option("--out", a.out, "folder for stance.pvd and its VTU files")->required();
  filming->add_option("--places", a.places, "places from 5 to 95 % of the stance")->check(CLI::Range(2, 361));
  filming->add_flag("--quiet", a.quiet, "no progress on stderr");
  CLI::App* explaining = add_command(app, "explain", "what a key, a section or a material means", a);
  add_sweep_commands(app, a.many);
  for (CLI::App* command : {checking, running, comparing})
    command->add_option("CASE", a.case_file, "case file (TOML)")->required();
  teaching->add_option("NAME", a.lesson, "packing, setback, elevation or trial")->required();
  teaching->add_option("CASE", a.case_file, "case file whose foot, horse, ground and nails replace the reference ones");
  teaching->add_option("--density", a.density, "mesh divisions relative to the default")->check(density_range());
  for (CLI::App* command : {running, comparing, teaching})
    command->add_option("--out", a.out, "folder for pictures and fields");
  for (CLI::App* command : {comparing, teaching}) {
    command->add_option("--report", a.report, "file for the report: one HTML page with job sheet and owner's sheet");
    command->add_option("--pdf", a.pdf, "file for the same as PDF (needs weasyprint or chromium)");
    command->add_option("--paper", a.paper, "a4 or letter")->check(CLI::IsMember({"a4", "letter"}));
  }
  for (CLI::App* command : {running, comparing})
    command
        ->add_option("--threads", a.threads, "draws of study.samples at a time; left out, as many as there are cores")
        ->check(CLI::Range(1, 1024));
  explaining->add_option("KEY", a.topic, "e.g. shoe.setback; left out, all keys are listed");
  explaining->add_flag("--markdown", a.markdown,
                       "write docs/case-keys.md to stdout; with KEY quantities or uncertainty, that page of docs");
  try {
    std::reverse(arguments.begin(), arguments.end());  // the parser takes them last first
    app.parse(std::move(arguments));
    if (checking->parsed()) return check(a, around);
    if (explaining->parsed()) return explain_topic(a, around);
    if (sloping->parsed()) return differentiate(a, around);
    if (teaching->parsed()) return teach(a, around);
    if (filming->parsed()) return film(a, around);
    if (serving->parsed()) return around.serve({a.port, a.quiet});
    if (const auto code = run_sweep_commands(app, a.many, around)) return *code;
    if (effects->parsed()) return around.check_effects({a.density, a.markdown, a.quiet});
    return solve(a, comparing->parsed() ? RunMode::compare : RunMode::run, around);
  } catch (const CLI::ParseError& e) {
    return app.exit(e, around.out, around.err) == 0 ? exit_done : exit_usage;
  } catch (const std::exception& e) {
    around.err << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

}  // namespace hoofload::scenarios
