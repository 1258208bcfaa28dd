// A run folder is made, refused or cleared, and nothing of the user's is ever lost.

#include "inputs/input_error.h"
#include "solver/output/run_folder.h"
#include "solver/output/run_summary.h"
#include "solver/output/whole_file.h"
#include "tests/unit/scratch_folder.h"

#include <catch2/catch.hpp>

#include <unistd.h>

using namespace throughbend;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace
{
constexpr ExistingRun refuse    = ExistingRun::refuse;
constexpr ExistingRun overwrite = ExistingRun::overwrite;

/// Root may write anywhere, so tests of permissions act as the user "nobody" meanwhile.
class PlainUser
{
public:
  PlainUser()
  {
    if (was_root_)
      REQUIRE(seteuid(65534) == 0);
  }
  ~PlainUser()
  {
    if (was_root_ && seteuid(0) != 0)
      std::abort();
  }
  PlainUser(const PlainUser &)            = delete;
  PlainUser &operator=(const PlainUser &) = delete;

private:
  bool was_root_ = geteuid() == 0;
};
} // namespace

TEST_CASE("a new run folder is made with its sub-folders and its mark", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunFolder     folder(scratch / "run/", refuse);
  CHECK(folder.path() == scratch / "run");
  CHECK(fs::is_directory(folder.fields()));
  CHECK(fs::is_directory(folder.tools()));
  CHECK(holds_a_run(folder.path()));

  fs::create_directory(scratch / "empty");
  CHECK_NOTHROW(RunFolder(scratch / "empty", refuse));
}

TEST_CASE("the summary of a run keeps the mark of the folder", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunFolder     folder(scratch / "run", refuse);
  RunSummary          summary;
  summary.state = RunState::finished;
  write_run_summary(folder.summary_file(), summary);
  CHECK(holds_a_run(folder.path()));
}

TEST_CASE("places that cannot hold a run are refused with cause and cure", "[unit][output]")
{
  const ScratchFolder scratch;
  put_content(scratch / "file", "mine");
  CHECK_THROWS_AS(RunFolder("", refuse), InputError);
  CHECK_THROWS_WITH(RunFolder(scratch / "file", overwrite), Contains("is a file"));
  CHECK_THROWS_WITH(RunFolder(scratch / "file/run", refuse), Contains("cannot"));
  CHECK(content(scratch / "file") == "mine");
  CHECK_THROWS_WITH(RunFolder(scratch / "no/run", refuse), Contains("mkdir -p"));
  CHECK_FALSE(fs::exists(scratch / "no"));
}

TEST_CASE("an earlier run is refused unless overwriting is asked for", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunFolder     folder(scratch / "run", refuse);
  put_content(folder.travel_file(), "old");
  CHECK_THROWS_WITH(RunFolder(folder.path(), refuse),
                    Contains("not empty") && Contains("--overwrite"));
  CHECK(content(folder.travel_file()) == "old");
}

TEST_CASE("overwriting clears the files of a run and nothing else", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunFolder     folder(scratch / "run", refuse);
  put_content(folder.case_file(), "case");
  const std::vector<fs::path> made = {folder.travel_file(),
                                      folder.surface_file(),
                                      folder.log_file(),
                                      folder.path() / "surface.csv.part",
                                      folder.fields() / "coupon-0001.vtu",
                                      folder.fields() / "coupon-0002.vtu.part",
                                      folder.fields() / "coupon-0001.pvtu",
                                      folder.fields() / "coupon.pvd",
                                      folder.tools() / "tools-0001.vtp"};
  const std::vector<fs::path> kept = {
      folder.path() / "notes.txt", folder.fields() / "view.pvsm",
      folder.tools() / "mine.vtu", folder.path() / "travel.csv.bak"};
  for (const fs::path &file : made)
    put_content(file, "old");
  for (const fs::path &file : kept)
    put_content(file, "mine");
  put_content(folder.summary_file(), summary_text(RunSummary()));

  const RunFolder again(folder.path(), overwrite);
  for (const fs::path &file : made)
    CHECK_FALSE(fs::exists(file));
  for (const fs::path &file : kept)
    CHECK(content(file) == "mine");
  CHECK_THAT(content(again.summary_file()), Contains("starting"));
  // The case may be the very one that is run again: replaced by the writer, not removed.
  CHECK(content(again.case_file()) == "case");
}

TEST_CASE("overwriting takes the report of the earlier run away, and nobody else's",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const RunFolder     folder(scratch / "run", refuse);
  const fs::path      page = folder.path() / "report.html",
                 pictures  = folder.path() / "pictures";
  const std::string ours   = "<meta name=\"generator\" content=\"throughbend report\">";
  const auto        report = [&]
  {
    put_content(folder.summary_file(), summary_text(RunSummary()));
    put_content(page, "<html>" + ours + "</html>");
    fs::create_directories(pictures);
    put_content(pictures / "strain_0040.00_mm.png", "old");
    put_content(pictures / "strain_released.png.part", "old");
  };
  report();
  RunFolder(folder.path(), overwrite);
  CHECK_FALSE(fs::exists(page));
  CHECK_FALSE(fs::exists(pictures));

  report();
  put_content(page, "<html>my own account</html>");
  put_content(pictures / "photo.png", "mine");
  RunFolder(folder.path(), overwrite);
  CHECK(content(page) == "<html>my own account</html>");
  CHECK(content(pictures / "photo.png") == "mine");
  CHECK_FALSE(fs::exists(pictures / "strain_0040.00_mm.png"));

  // A linked folder of pictures is somebody's own place.
  fs::remove_all(pictures);
  fs::create_directory(scratch / "elsewhere");
  put_content(scratch / "elsewhere/strain_released.png", "mine");
  fs::create_directory_symlink(scratch / "elsewhere", pictures);
  put_content(folder.summary_file(), summary_text(RunSummary()));
  RunFolder(folder.path(), overwrite);
  CHECK(content(scratch / "elsewhere/strain_released.png") == "mine");
}

TEST_CASE("a folder that holds no run of ours is never overwritten", "[unit][output]")
{
  const ScratchFolder scratch;
  fs::create_directories(scratch / "mine/fields");
  put_content(scratch / "mine/case.ini", "[coupon] # with my comments");
  put_content(scratch / "mine/fields/a.vtu", "mine");
  put_content(scratch / "mine/run.json", "{\"name\": \"of another program\"}");
  CHECK_THROWS_WITH(RunFolder(scratch / "mine", overwrite),
                    Contains("does not hold a run"));
  CHECK(content(scratch / "mine/case.ini") == "[coupon] # with my comments");
  CHECK(content(scratch / "mine/fields/a.vtu") == "mine");
  CHECK(content(scratch / "mine/run.json") == "{\"name\": \"of another program\"}");
  CHECK_FALSE(fs::exists(scratch / "mine/tools"));
}

TEST_CASE("links are not followed when a run is cleared", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunFolder     folder(scratch / "run", refuse);
  fs::create_directory(scratch / "elsewhere");
  put_content(scratch / "elsewhere/a.vtu", "mine");
  put_content(scratch / "long.csv", "mine");
  fs::remove(folder.fields());
  fs::create_directory_symlink(scratch / "elsewhere", folder.fields());
  fs::create_symlink(scratch / "long.csv", folder.travel_file());
  const RunFolder again(folder.path(), overwrite);
  CHECK(content(scratch / "elsewhere/a.vtu") == "mine");
  CHECK(content(scratch / "long.csv") == "mine");
  CHECK_FALSE(fs::exists(folder.travel_file()));
}

TEST_CASE("folders that may not be written are refused and left as they were",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const RunFolder     old(scratch / "old", refuse);
  put_content(old.travel_file(), "old");
  const auto locked = fs::perms::owner_read | fs::perms::owner_exec |
                      fs::perms::group_read | fs::perms::group_exec |
                      fs::perms::others_read | fs::perms::others_exec;
  fs::permissions(scratch / "old", locked);
  fs::create_directory(scratch / "locked");
  fs::permissions(scratch / "locked", locked);
  fs::permissions(scratch.path(), fs::perms::all);
  {
    const PlainUser plain;
    CHECK_THROWS_WITH(RunFolder(scratch / "locked/run", refuse), Contains("cannot make"));
    CHECK_THROWS_WITH(RunFolder(scratch / "locked", refuse), Contains("cannot"));
    CHECK_THROWS_AS(RunFolder(scratch / "old", overwrite), InputError);
  }
  CHECK(content(old.travel_file()) == "old");
  CHECK(fs::is_empty(scratch / "locked"));
  fs::permissions(scratch / "old", fs::perms::owner_all);
  fs::permissions(scratch / "locked", fs::perms::owner_all);
}

TEST_CASE("a failed write leaves the former file whole", "[unit][output]")
{
  const ScratchFolder scratch;
  write_whole_file(scratch / "a", "first");
  write_whole_file(scratch / "a", "second");
  CHECK(content(scratch / "a") == "second");
  CHECK_FALSE(fs::exists(scratch / "a.part"));
  CHECK_THROWS_WITH(write_whole_file(scratch / "no/a", "x"), Contains("No such file"));
  fs::create_directory(scratch / "taken");
  CHECK_THROWS_AS(write_whole_file(scratch / "taken", "x"), std::runtime_error);
  CHECK_FALSE(fs::exists(scratch / "taken.part"));
}
