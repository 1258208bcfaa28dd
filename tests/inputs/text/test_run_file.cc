// What lies in a run folder is opened in one place: regular files of a size that a run can
// have, through no link, and never waited for.

#include "inputs/keys/stored_case.h"
#include "inputs/text/csv_table.h"
#include "inputs/text/file_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/own_file.h"
#include "inputs/text/run_file.h"
#include "postprocess/runs/run_record.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <sys/resource.h>
#include <sys/stat.h>

using namespace throughbend;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace
{
/// A run of a few files, and a text of somebody else's beside it.
struct SmallRun
{
  SmallRun()
  {
    fs::create_directory(run);
    put_content(scratch / "secret", "[case]\ntitle = secret of another\n");
    put_content(run / "run.json",
                "{\"program\": \"throughbend\", \"state\": \"finished\"}");
    put_content(run / "case.ini", "[case]\ntitle = ours\n");
    put_content(run / "travel.csv", "travel [mm],ram force [N]\n1,2\n");
  }
  void replace_by_link(const char *name, const fs::path &target) const
  {
    fs::remove(run / name);
    fs::create_symlink(target, run / name);
  }
  void replace_by_pipe(const char *name) const
  {
    fs::remove(run / name);
    REQUIRE(mkfifo((run / name).c_str(), 0666) == 0);
  }

  ScratchFolder scratch;
  fs::path      run = scratch / "run";
};
} // namespace

TEST_CASE("a file of a run is read whole, or is not there", "[unit][run_file]")
{
  const SmallRun small;
  CHECK(run_file_text(small.run, "case.ini", 100) == "[case]\ntitle = ours\n");
  CHECK_FALSE(run_file_text(small.run, "none", 100));
  CHECK_FALSE(run_file_text(small.run, "none/none", 100));
  CHECK_FALSE(run_file_text(small.scratch / "nowhere", "case.ini", 100));
  CHECK(run_file_text(small.run, "case.ini", 20).has_value());
  CHECK_THROWS_WITH(run_file_text(small.run, "case.ini", 19),
                    Contains("case.ini holds 20 bytes") && Contains("at most 19"));
  for (const char *name : {"../secret", "/etc/hostname", "", "a/../../secret"})
    CHECK_THROWS_WITH(run_file_text(small.run, name, 100),
                      Contains("leads out of the run"));
}

TEST_CASE("a file that the machine does not open is not taken for a missing one",
          "[unit][run_file]")
{
  const SmallRun small;
  rlimit         usual{};
  REQUIRE(getrlimit(RLIMIT_NOFILE, &usual) == 0);
  const rlimit none{0, usual.rlim_max};
  REQUIRE(setrlimit(RLIMIT_NOFILE, &none) == 0);
  std::string said, input;
  try
  {
    run_file_text(small.run, "case.ini", 100);
  }
  catch (const InputError &fault)
  {
    input = fault.what();
  }
  catch (const std::runtime_error &fault)
  {
    said = fault.what();
  }
  REQUIRE(setrlimit(RLIMIT_NOFILE, &usual) == 0);
  CHECK(input.empty());
  CHECK_THAT(said, Contains("cannot be read: Too many open files"));
}

TEST_CASE("a linked case.ini puts nothing of its target onto a page", "[unit][run_file]")
{
  const SmallRun small;
  small.replace_by_link("case.ini", small.scratch / "secret");
  CHECK_THROWS_WITH(read_run_record(small.run),
                    Contains("run/case.ini is a link") && Contains("take it away"));
}

TEST_CASE("a pipe, a device or a folder in a run is refused at once", "[unit][run_file]")
{
  for (const char *name : {"run.json", "case.ini", "travel.csv"})
  {
    const SmallRun small;
    small.replace_by_pipe(name);
    CHECK_THROWS_WITH(read_run_record(small.run),
                      Contains(name) && Contains("no regular file") && Contains("push"));
    small.replace_by_link(name, "/dev/zero");
    CHECK_THROWS_WITH(read_run_record(small.run), Contains(name) && Contains("is a link"));
    fs::remove(small.run / name);
    fs::create_directory(small.run / name);
    CHECK_THROWS_WITH(read_run_record(small.run), Contains(name));
  }
}

TEST_CASE("a case of a run that names a pipe is not waited for", "[unit][run_file]")
{
  const SmallRun small;
  small.replace_by_pipe("case.ini");
  const std::string pipe = (small.run / "case.ini").string();
  for (const std::string key :
       {"[material]\ncurve", "[material]\ncatalogue", "[friction]\ncatalogue"})
  {
    const CaseReading reading = stored_case(key + " = " + pipe + "\n", "case.ini");
    REQUIRE(reading.errors.size() == 1);
    CHECK(reading.errors[0].text().find("no regular file") != std::string::npos);
  }
  CHECK(read_file_text(pipe).problem == "is a pipe or device, not a file");
  CHECK_FALSE(is_own_file(pipe, report_mark));
  CHECK_THROWS_WITH(check_place("page", pipe, report_mark, ForeignFile::replace),
                    Contains("a pipe or device"));
}

TEST_CASE("cells of a table are counted before they take memory", "[unit][run_file]")
{
  CHECK_THROWS_WITH(CsvTable::of_text(std::string(9'000'000, ','), "travel.csv"),
                    Contains("travel.csv") && Contains("cells"));
}
