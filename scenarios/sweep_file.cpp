#include "scenarios/sweep_file.hpp"

#include "scenarios/case_resolved.hpp"
#include "scenarios/provenance.hpp"

#include <sqlite3.h>
#include <nlohmann/json.hpp>

namespace hoofload::scenarios {

namespace {

// `kind` names what a value is, once; `result` holds the numbers, in the order in which the run gave them.
constexpr const char* kTables = R"sql(
CREATE TABLE sweep (key TEXT PRIMARY KEY, value TEXT NOT NULL);
CREATE TABLE run (run INTEGER PRIMARY KEY, case_sha256 TEXT NOT NULL, outcome TEXT NOT NULL, seconds REAL NOT NULL);
CREATE TABLE setting (run INTEGER NOT NULL, place INTEGER NOT NULL, value TEXT NOT NULL,
                      PRIMARY KEY (run, place)) WITHOUT ROWID;
CREATE TABLE kind (kind INTEGER PRIMARY KEY, option TEXT NOT NULL, model TEXT NOT NULL, phase TEXT NOT NULL,
                   quantity TEXT NOT NULL, unit TEXT NOT NULL, UNIQUE (option, model, phase, quantity));
CREATE TABLE result (run INTEGER NOT NULL, place INTEGER NOT NULL, kind INTEGER NOT NULL, value REAL, mesh_bar REAL,
                     outcome TEXT, reason TEXT, PRIMARY KEY (run, place)) WITHOUT ROWID;
CREATE VIEW tidy AS
  SELECT r.run, k.option, k.model, k.phase, k.quantity, k.unit, r.value, r.mesh_bar,
         coalesce(r.outcome, 'solved') AS outcome, coalesce(r.reason, '') AS reason, run.case_sha256,
         (SELECT value FROM sweep WHERE key = 'plan_sha256') AS plan_sha256,
         (SELECT value FROM sweep WHERE key = 'program') AS program
  FROM result r JOIN kind k USING (kind) JOIN run USING (run) ORDER BY r.run, r.place;
)sql";

[[noreturn]] void fail(const std::filesystem::path& path, const std::string& problem) {
  throw SweepFileError(path.string() + ": " + problem);
}

/// A prepared statement; parameters and columns count from 1 and 0 as SQLite's own do.
class Statement {
 public:
  Statement(sqlite3* handle, const std::filesystem::path& path, const char* sql) : handle_(handle), path_(path) {
    if (sqlite3_prepare_v2(handle, sql, -1, &statement_, nullptr) != SQLITE_OK) fail(path, sqlite3_errmsg(handle));
  }
  ~Statement() { sqlite3_finalize(statement_); }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  Statement& bind(int at, const std::string& text) {
    sqlite3_bind_text(statement_, at, text.data(), static_cast<int>(text.size()), SQLITE_TRANSIENT);
    return *this;
  }
  Statement& bind(int at, std::size_t number) {
    sqlite3_bind_int64(statement_, at, static_cast<sqlite3_int64>(number));
    return *this;
  }
  Statement& bind(int at, std::optional<double> number) {
    number ? sqlite3_bind_double(statement_, at, *number) : sqlite3_bind_null(statement_, at);
    return *this;
  }
  Statement& bind_unless(int at, const std::string& text, const std::string& usual) {
    return text == usual ? bind(at, std::optional<double>{}) : bind(at, text);
  }

  /// True while there is a row.
  bool step() {
    const int code = sqlite3_step(statement_);
    if (code != SQLITE_ROW && code != SQLITE_DONE) fail(path_, sqlite3_errmsg(handle_));
    return code == SQLITE_ROW;
  }
  void run() {
    step();
    sqlite3_reset(statement_);
  }

  [[nodiscard]] std::string text(int column) const {
    const auto* chars = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
    return chars == nullptr ? std::string{} : std::string(chars);
  }
  [[nodiscard]] std::optional<double> number(int column) const {
    if (sqlite3_column_type(statement_, column) == SQLITE_NULL) return {};
    return sqlite3_column_double(statement_, column);
  }
  [[nodiscard]] std::size_t integer(int column) const {
    return static_cast<std::size_t>(sqlite3_column_int64(statement_, column));
  }

 private:
  sqlite3* handle_;
  const std::filesystem::path& path_;
  sqlite3_stmt* statement_ = nullptr;
};

void execute(sqlite3* handle, const std::filesystem::path& path, const char* sql) {
  if (sqlite3_exec(handle, sql, nullptr, nullptr, nullptr) == SQLITE_OK) return;
  const int code = sqlite3_errcode(handle);
  if (code == SQLITE_BUSY || code == SQLITE_LOCKED) fail(path, "is in use by another program");
  if (code == SQLITE_NOTADB) fail(path, "is not a file of sweep results");
  fail(path, sqlite3_errmsg(handle));
}

std::vector<std::pair<std::string, std::string>> fields_of(const SweepIdentity& i) {
  return {{"schema", "hoofload-sweep/1"},   {"plan_sha256", i.plan_sha256}, {"program", i.program},
          {"runs", std::to_string(i.runs)}, {"inputs", i.inputs},           {"title", i.title},
          {"base_toml", i.base_toml},       {"method", i.method},           {"samples", std::to_string(i.samples)}};
}

std::string field(sqlite3* handle, const std::filesystem::path& path, const std::string& key) {
  Statement s(handle, path, "SELECT value FROM sweep WHERE key = ?");
  s.bind(1, key);
  if (!s.step()) fail(path, "is not a file of sweep results");
  return s.text(0);
}

SweepIdentity stored_identity(sqlite3* handle, const std::filesystem::path& path) {
  const auto get = [&](const char* key) { return field(handle, path, key); };
  if (get("schema") != "hoofload-sweep/1") fail(path, "was written by another version of this program");
  return {get("plan_sha256"), get("program"),   std::stoul(get("runs")), get("inputs"),
          get("title"),       get("base_toml"), get("method"),           std::stoul(get("samples"))};
}

bool has_tables(sqlite3* handle, const std::filesystem::path& path) {
  Statement s(handle, path, "SELECT count(*) FROM sqlite_master");
  s.step();
  return s.integer(0) > 0;
}

void create(sqlite3* handle, const std::filesystem::path& path, const SweepIdentity& identity) {
  execute(handle, path, "BEGIN IMMEDIATE");
  execute(handle, path, kTables);
  Statement insert(handle, path, "INSERT INTO sweep VALUES (?, ?)");
  for (const auto& [key, value] : fields_of(identity)) insert.bind(1, key).bind(2, value).run();
  execute(handle, path, "COMMIT");
}

std::size_t kind_of_row(sqlite3* handle, const std::filesystem::path& path, const SweepRow& row) {
  Statement find(handle, path, "SELECT kind FROM kind WHERE option = ? AND model = ? AND phase = ? AND quantity = ?");
  find.bind(1, row.option).bind(2, row.model).bind(3, row.phase).bind(4, row.quantity);
  if (find.step()) return find.integer(0);
  Statement add(handle, path, "INSERT INTO kind (option, model, phase, quantity, unit) VALUES (?, ?, ?, ?, ?)");
  add.bind(1, row.option).bind(2, row.model).bind(3, row.phase).bind(4, row.quantity).bind(5, row.unit).run();
  return static_cast<std::size_t>(sqlite3_last_insert_rowid(handle));
}

void add_rows(sqlite3* handle, const std::filesystem::path& path, const SweepRun& run) {
  Statement insert(handle, path, "INSERT INTO result VALUES (?, ?, ?, ?, ?, ?, ?)");
  for (std::size_t place = 0; place < run.rows.size(); ++place) {
    const SweepRow& row = run.rows[place];
    insert.bind(1, run.run).bind(2, place).bind(3, kind_of_row(handle, path, row)).bind(4, row.value);
    insert.bind(5, row.mesh_bar).bind_unless(6, row.outcome, "solved").bind_unless(7, row.reason, "").run();
  }
}

}  // namespace

SweepIdentity identity_of(const Sweep& sweep) {
  nlohmann::json inputs = nlohmann::json::array();
  for (const Variation& v : sweep.plan.variations) inputs.push_back({v.input.name, v.input.unit});
  std::string base;
  for (const Case& run : sweep.base_runs) base += "# " + run.name + "\n" + resolved_case_toml(run) + "\n";
  const std::string title = sweep.plan.title.empty() ? sweep.base_runs.front().title : sweep.plan.title;
  return {sweep_fingerprint(sweep),
          program_line(),
          run_count(sweep.plan),
          inputs.dump(),
          title,
          base,
          std::string(name_of(sweep.plan.method)),
          static_cast<std::size_t>(sweep.plan.samples)};
}

void SweepFile::Close::operator()(sqlite3* handle) const { sqlite3_close(handle); }

void SweepFile::open(bool may_create) {
  sqlite3* handle = nullptr;
  const int flags = SQLITE_OPEN_READWRITE | (may_create ? SQLITE_OPEN_CREATE : 0);
  const int code = sqlite3_open_v2(path_.c_str(), &handle, flags, nullptr);
  handle_.reset(handle);
  if (code != SQLITE_OK) fail(path_, handle == nullptr ? "out of memory" : sqlite3_errmsg(handle));
  sqlite3_busy_timeout(handle, 2000);
  // One program at a time, so no shared memory is needed and the file may lie on a network folder.
  execute(handle, path_, "PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL;");
}

SweepFile::SweepFile(const std::filesystem::path& path) : path_(path) {
  open(false);
  if (!has_tables(handle_.get(), path_)) fail(path_, "is not a file of sweep results");
  identity_ = stored_identity(handle_.get(), path_);
}

SweepFile::SweepFile(const std::filesystem::path& path, const SweepIdentity& identity) : path_(path) {
  open(true);
  if (!has_tables(handle_.get(), path_)) create(handle_.get(), path_, identity);
  identity_ = stored_identity(handle_.get(), path_);
  if (identity_.plan_sha256 != identity.plan_sha256 || identity_.runs != identity.runs)
    fail(path_, "belongs to another plan (" + identity_.plan_sha256.substr(0, 12) + ", this one is " +
                    identity.plan_sha256.substr(0, 12) + "): the plan, its base case or the catalogue has changed");
  if (identity_.program != identity.program)
    fail(path_, "was begun by " + identity_.program + "; this is " + identity.program);
}

std::set<std::size_t> SweepFile::finished() const {
  std::set<std::size_t> runs;
  Statement s(handle_.get(), path_, "SELECT run FROM run");
  while (s.step()) runs.insert(s.integer(0));
  return runs;
}

void SweepFile::add(const SweepRun& run) {
  sqlite3* handle = handle_.get();
  execute(handle, path_, "BEGIN IMMEDIATE");
  Statement one(handle, path_, "INSERT INTO run VALUES (?, ?, ?, ?)");
  one.bind(1, run.run).bind(2, run.case_sha256).bind(3, run.outcome).bind(4, std::optional(run.seconds)).run();
  Statement setting(handle, path_, "INSERT INTO setting VALUES (?, ?, ?)");
  for (std::size_t place = 0; place < run.settings.size(); ++place)
    setting.bind(1, run.run).bind(2, place).bind(3, run.settings[place].value).run();
  add_rows(handle, path_, run);
  execute(handle, path_, "COMMIT");
}

SweepRun SweepFile::read(std::size_t run) const {
  SweepRun out;
  out.run = run;
  Statement one(handle_.get(), path_, "SELECT case_sha256, outcome, seconds FROM run WHERE run = ?");
  if (!one.bind(1, run).step()) fail(path_, "has no run " + std::to_string(run));
  out.case_sha256 = one.text(0), out.outcome = one.text(1), out.seconds = one.number(2).value_or(0);
  Statement settings(handle_.get(), path_, "SELECT value FROM setting WHERE run = ? ORDER BY place");
  settings.bind(1, run);
  while (settings.step()) out.settings.push_back({{}, settings.text(0)});
  Statement rows(handle_.get(), path_,
                 "SELECT option, model, phase, quantity, unit, value, mesh_bar, coalesce(r.outcome, 'solved'), reason "
                 "FROM result r JOIN kind USING (kind) WHERE run = ? ORDER BY place");
  rows.bind(1, run);
  while (rows.step())
    out.rows.push_back({rows.text(0), rows.text(1), rows.text(2), rows.text(3), rows.text(4), rows.number(5),
                        rows.number(6), rows.text(7), rows.text(8)});
  return out;
}

double SweepFile::seconds() const {
  Statement s(handle_.get(), path_, "SELECT coalesce(sum(seconds), 0) FROM run");
  s.step();
  return s.number(0).value_or(0);
}

}  // namespace hoofload::scenarios
