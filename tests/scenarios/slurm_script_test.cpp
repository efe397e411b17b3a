// The batch script against stand-ins for sbatch and scontrol that run what is submitted at once. The real ones:
// tests/cluster/run.sh.
#include "scenarios/slurm_script.hpp"

#include "tests/scenarios/sweep_fixture.hpp"

#include <cstdlib>

namespace hoofload::scenarios {
namespace {

namespace fs = std::filesystem;

void write_script(const fs::path& path, const std::string& text) {
  std::ofstream(path) << text;
  fs::permissions(path, fs::perms::owner_all);
}

std::string read_all(const fs::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A folder with a blank and a quote in its name; `program` logs what it is asked and fails on part 2 as long as "broken" is
/// there.
struct Cluster {
  fs::path folder = sweep_folder("slurm it's");
  SlurmJob job{
      folder / "s.sh", folder / "program", folder / "plan.toml", folder / "r.sqlite", "0123456789abcdef", 40, 5, 2, 1,
      "0:10:00"};

  Cluster() {
    write_script(job.program,
                 "#!/bin/bash\necho \"$@\" >> \"$(dirname \"$0\")/asked\"\n"
                 "if [ \"$1\" = sweep ]; then touch \"$4\"; fi\n"
                 "if [ \"$6\" = 2/5 ] && [ -e \"$(dirname \"$0\")/broken\" ]; then exit 5; fi\n"
                 "if [ \"$6\" = 3/5 ]; then exit 4; fi\n");
    write_script(folder / "scontrol", "#!/bin/bash\necho 'MaxArraySize            = 1001'\n");
    // Runs the array's tasks, or the one job, at once.
    write_script(folder / "sbatch",
                 "#!/bin/bash\nhere=\"$(dirname \"$0\")\"\necho \"$@\" >> \"$here/submitted\"\nlist=''\n"
                 "while [[ \"$1\" == --* ]]; do case \"$1\" in --array=*) list=\"${1#--array=}\" ;; esac; shift; done\n"
                 "if [ -n \"$list\" ]; then for i in $(echo \"${list%%%*}\" | tr , ' '); do\n"
                 "SLURM_ARRAY_TASK_ID=$i bash \"$@\" > /dev/null 2>&1; done\n"
                 "else bash \"$@\" >> \"$here/merge.txt\" 2>&1; fi\necho 7\n");
    write_script(job.script, slurm_script(job));
  }
  [[nodiscard]] int submit() const {
    const std::string path = "PATH=\"" + folder.string() + ":$PATH\" ";
    return std::system((path + "bash \"" + job.script.string() + "\" > /dev/null 2>&1").c_str());
  }
  [[nodiscard]] std::string asked() const { return read_all(folder / "asked"); }
  [[nodiscard]] std::string submitted() const { return read_all(folder / "submitted"); }
};

int count(const std::string& text, const std::string& part) {
  int n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(SlurmScript, submits_a_throttled_array_and_the_merge_behind_it) {
  const Cluster c;
  ASSERT_EQ(c.submit(), 0);
  EXPECT_NE(c.submitted().find("--array=1,2,3,4,5%2"), std::string::npos) << c.submitted();
  EXPECT_NE(c.submitted().find("--dependency=afterany:7"), std::string::npos);
  EXPECT_EQ(count(c.asked(), "--shard "), 5);
  EXPECT_EQ(count(c.asked(), "merge "), 1) << c.asked();
  const std::string merge = c.asked().substr(c.asked().find("merge "));
  for (const char* part : {"/1.sqlite", "/2.sqlite", "/3.sqlite", "/4.sqlite", "/5.sqlite", "--out "})
    EXPECT_EQ(count(merge, part), 1) << part << " in " << merge;
}

TEST(SlurmScript, tries_only_what_failed_again_and_gives_up_after_three) {
  const Cluster c;
  std::ofstream(c.folder / "broken") << "";
  ASSERT_EQ(c.submit(), 0);
  EXPECT_EQ(count(c.asked(), "--shard 2/5"), 3) << c.asked();
  EXPECT_EQ(count(c.asked(), "--shard 1/5"), 1);
  EXPECT_EQ(count(c.asked(), "--shard 3/5"), 1);  // exit code 4: its failures are rows
  EXPECT_EQ(count(c.asked(), "merge "), 0);
  EXPECT_NE(read_all(c.folder / "merge.txt").find("parts 2 are not done after 3 tries"), std::string::npos);
  fs::remove(c.folder / "broken");
  ASSERT_EQ(c.submit(), 0);  // mended: the same command ends it
  EXPECT_EQ(count(c.asked(), "--shard 2/5"), 4);
  EXPECT_EQ(count(c.asked(), "--shard 1/5"), 1);
  EXPECT_EQ(count(c.asked(), "merge "), 1);
}

TEST(SlurmScript, more_parts_than_the_cluster_takes_is_said_before_anything_is_submitted) {
  Cluster c;
  c.job.parts = 2000;
  write_script(c.job.script, slurm_script(c.job));
  EXPECT_NE(c.submit(), 0);
  EXPECT_EQ(c.submitted(), "");
}

}  // namespace
}  // namespace hoofload::scenarios
