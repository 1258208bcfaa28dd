// A run folder is made, refused or cleared, and nothing of the user's is ever lost.

#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"
#include "solver/record/earlier_run.h"
#include "solver/record/folder_lock.h"
#include "solver/record/run_folder.h"
#include "solver/record/run_summary.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <unistd.h>

using namespace throughbend;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace
{
constexpr ExistingRun refuse    = ExistingRun::refuse;
constexpr ExistingRun overwrite = ExistingRun::overwrite;

/// The places of a run that has ended: nobody writes into its folder any more.
struct RunPlaces
{
  fs::path root;

  fs::path path() const { return root; }
  fs::path case_file() const { return root / "case.ini"; }
  fs::path summary_file() const { return root / "run.json"; }
  fs::path travel_file() const { return root / "travel.csv"; }
  fs::path surface_file() const { return root / "surface.csv"; }
  fs::path log_file() const { return root / "log.txt"; }
  fs::path fields() const { return root / "fields"; }
  fs::path tools() const { return root / "tools"; }
};

RunPlaces ended_run(const fs::path &root)
{
  const RunFolder folder(root, ExistingRun::refuse);
  return {folder.path()};
}

/// A run that replaces the one in the folder and leaves nothing but its mark.
void replace_run(const fs::path &root)
{
  RunFolder folder(root, ExistingRun::overwrite);
  folder.take_place();
}

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
  fs::create_symlink(scratch / "gone", scratch / "link");
  CHECK_THROWS_WITH(RunFolder(scratch / "link", refuse), Contains("is a broken link"));
}

TEST_CASE("folders on the way to a run are made", "[unit][output]")
{
  const ScratchFolder scratch;
  CHECK(holds_a_run(RunFolder(scratch / "class/of/monday", refuse).path()));
}

TEST_CASE("an earlier run is refused unless overwriting is asked for", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunPlaces     folder = ended_run(scratch / "run");
  put_content(folder.travel_file(), "old");
  CHECK_THROWS_WITH(RunFolder(folder.path(), refuse),
                    Contains("not empty") && Contains("--overwrite"));
  CHECK(content(folder.travel_file()) == "old");
}

TEST_CASE("overwriting clears the files of a run and nothing else", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunPlaces     folder = ended_run(scratch / "run");
  put_content(folder.case_file(), "case");
  const std::vector<fs::path> made = {folder.travel_file(),
                                      folder.surface_file(),
                                      folder.log_file(),
                                      folder.path() / "surface.csv.part",
                                      folder.path() / "run.json.0123450abc.part",
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

  RunFolder again(folder.path(), overwrite);
  for (const fs::path &file : made)
    CHECK(content(file) == "old"); // whole until the new run has ended
  put_content(again.case_file(), "new case");
  put_content(again.travel_file(), "new");
  put_content(again.fields() / "coupon-0002.vtu", "new");
  put_content(again.summary_file(), summary_text(RunSummary()));
  again.take_place();
  CHECK(again.path() == folder.path());
  CHECK(content(again.travel_file()) == "new");
  CHECK(content(again.fields() / "coupon-0002.vtu") == "new");
  CHECK(content(again.case_file()) == "new case");
  CHECK(content(again.summary_file()) == summary_text(RunSummary()));
  for (const fs::path &file : made)
    CHECK((!fs::exists(file) || file == again.travel_file()));
  for (const fs::path &file : kept)
    CHECK(content(file) == "mine");
  CHECK_FALSE(fs::exists(folder.path() / "unfinished"));
}

TEST_CASE("a run that does not end leaves the earlier one whole", "[unit][output]")
{
  const ScratchFolder scratch;
  std::string         finished;
  {
    const RunFolder folder(scratch / "run", refuse);
    put_content(folder.travel_file(), "old");
    put_content(folder.summary_file(), summary_text(RunSummary()));
    finished = content(folder.summary_file());
  }
  const fs::path aside = scratch / "run/unfinished";
  {
    const RunFolder killed(scratch / "run", overwrite);
    CHECK(killed.aside());
    CHECK(killed.path() == aside);
    put_content(killed.travel_file(), "as far as it got");
  }
  CHECK(content(scratch / "run/travel.csv") == "old");
  CHECK(content(scratch / "run/run.json") == finished);
  CHECK(content(aside / "travel.csv") == "as far as it got");
  CHECK(holds_a_run(aside));
  {
    RunFolder next(scratch / "run", overwrite); // takes up the place of the killed one
    CHECK_FALSE(fs::exists(aside / "travel.csv"));
    put_content(next.travel_file(), "new");
    next.take_place();
  }
  CHECK(content(scratch / "run/travel.csv") == "new");
  CHECK_FALSE(fs::exists(aside));
}

TEST_CASE("somebody's own folder in the place of an unfinished run is left alone",
          "[unit][output]")
{
  const ScratchFolder scratch;
  {
    const RunFolder folder(scratch / "run", refuse);
  }
  fs::create_directory(scratch / "run/unfinished");
  put_content(scratch / "run/unfinished/poem.txt", "mine");
  CHECK_THROWS_WITH(RunFolder(scratch / "run", overwrite), Contains("Rename it"));
  CHECK(content(scratch / "run/unfinished/poem.txt") == "mine");
}

TEST_CASE("one run at a time writes into a folder", "[unit][output]")
{
  const ScratchFolder scratch;
  const std::string   own         = "process " + std::to_string(getpid());
  const auto          is_kept_out = [&](const ExistingRun existing)
  {
    CHECK_THROWS_WITH(RunFolder(scratch / "run", existing),
                      Contains("in use") && Contains(own) && Contains("--into"));
  };
  {
    const RunFolder first(scratch / "run", refuse);
    is_kept_out(refuse);
    is_kept_out(overwrite);
  }
  {
    const RunFolder second(scratch / "run", overwrite);
    is_kept_out(overwrite);
  }
  CHECK_FALSE(fs::exists(lock_file(scratch / "run")));
  // What a killed process leaves is in nobody's way.
  put_content(lock_file(scratch / "run"), "process 1 on nowhere");
  CHECK(writer_of(scratch / "run").empty());
  CHECK_NOTHROW(RunFolder(scratch / "run", overwrite));
  fs::create_directory(scratch / "new");
  put_content(lock_file(scratch / "new"), "process 1 on nowhere");
  CHECK_NOTHROW(RunFolder(scratch / "new", refuse));
}

TEST_CASE("overwriting takes the report of the earlier run away, and nobody else's",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const RunPlaces     folder = ended_run(scratch / "run");
  const fs::path      page   = folder.path() / "report.html",
                 pictures    = folder.path() / "pictures";
  const std::string ours     = "<meta name=\"generator\" content=\"throughbend report\">";
  const auto        report   = [&]
  {
    put_content(folder.summary_file(), summary_text(RunSummary()));
    put_content(page, "<html>" + ours + "</html>");
    fs::create_directories(pictures);
    put_content(pictures / "strain_0040.00_mm.png", "old");
    put_content(pictures / "strain_released.png.part", "old");
  };
  report();
  replace_run(folder.path());
  CHECK_FALSE(fs::exists(page));
  CHECK_FALSE(fs::exists(pictures));

  report();
  put_content(page, "<html>my own account</html>");
  put_content(pictures / "photo.png", "mine");
  replace_run(folder.path());
  CHECK(content(page) == "<html>my own account</html>");
  CHECK(content(pictures / "photo.png") == "mine");
  CHECK_FALSE(fs::exists(pictures / "strain_0040.00_mm.png"));

  // A linked folder of pictures is somebody's own place.
  fs::remove_all(pictures);
  fs::create_directory(scratch / "elsewhere");
  put_content(scratch / "elsewhere/strain_released.png", "mine");
  fs::create_directory_symlink(scratch / "elsewhere", pictures);
  put_content(folder.summary_file(), summary_text(RunSummary()));
  replace_run(folder.path());
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
                    Contains("is not the folder of a throughbend run"));
  CHECK(content(scratch / "mine/case.ini") == "[coupon] # with my comments");
  CHECK(content(scratch / "mine/fields/a.vtu") == "mine");
  CHECK(content(scratch / "mine/run.json") == "{\"name\": \"of another program\"}");
  CHECK_FALSE(fs::exists(scratch / "mine/tools"));
}

TEST_CASE("links are not followed when a run is replaced", "[unit][output]")
{
  const ScratchFolder scratch;
  const RunPlaces     folder = ended_run(scratch / "run");
  put_content(scratch / "long.csv", "mine");
  fs::create_symlink(scratch / "long.csv", folder.travel_file());
  replace_run(folder.path());
  CHECK(content(scratch / "long.csv") == "mine");
  CHECK_FALSE(fs::exists(fs::symlink_status(folder.travel_file())));

  fs::create_directory(scratch / "elsewhere");
  put_content(scratch / "elsewhere/a.vtu", "mine");
  fs::remove(folder.fields());
  fs::create_directory_symlink(scratch / "elsewhere", folder.fields());
  CHECK_THROWS_WITH(RunFolder(folder.path(), overwrite), Contains("is a link"));
  CHECK(content(scratch / "elsewhere/a.vtu") == "mine");
}

TEST_CASE("folders that may not be written are refused and left as they were",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const RunPlaces     old = ended_run(scratch / "old");
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

TEST_CASE("only an unfinished run is resumed, and the one aside before the one it replaces",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const auto          state = [](const fs::path &run, const std::string &word)
  {
    fs::create_directories(run);
    put_content(run / "run.json",
                "{\"program\": \"throughbend\", \"state\": \"" + word + "\"}");
  };
  CHECK_THROWS_WITH(run_to_resume(scratch / "none"), Contains("no run folder"));
  CHECK_THROWS_WITH(run_to_resume(scratch.path()), Contains("not the folder"));
  state(scratch / "run", "finished");
  CHECK_THROWS_WITH(run_to_resume(scratch / "run"), Contains("is finished"));
  CHECK_THROWS_WITH(RunFolder(scratch / "run", ExistingRun::resume),
                    Contains("is finished"));

  state(scratch / "run/unfinished", "interrupted");
  for (const char *name : {"run", "run/", "run/unfinished", "run/unfinished/"})
  {
    const RunPlace found = run_to_resume(scratch / name);
    CHECK(found.place == scratch / "run");
    CHECK(found.path == scratch / "run/unfinished");
  }
  put_content(scratch / "run/unfinished/travel.csv", "rows");
  {
    const RunFolder folder(scratch / "run", ExistingRun::resume);
    CHECK(folder.aside());
    CHECK(content(folder.travel_file()) == "rows");
    CHECK_THROWS_WITH(RunFolder(scratch / "run/unfinished", ExistingRun::resume),
                      Contains("in use"));
  }
  fs::create_directory_symlink(scratch / "run", scratch / "run/unfinished/checkpoint");
  CHECK_THROWS_WITH(run_to_resume(scratch / "run"), Contains("is a link"));
  fs::remove(scratch / "run/unfinished/checkpoint");
  fs::create_symlink(scratch / "elsewhere.txt", scratch / "run/unfinished/log.txt");
  CHECK_THROWS_WITH(run_to_resume(scratch / "run"), Contains("log.txt is a link"));
}

TEST_CASE(
    "a run that is resumed keeps the shapes that are named, and loses its checkpoints "
    "at its end",
    "[unit][output]")
{
  const ScratchFolder            scratch;
  const RunFolder                folder(scratch / "run", refuse);
  const std::vector<std::string> stay = {"a.vtu", "c.pvtu", "c_part0.vtu", "c_part12.vtu",
                                         "mine.txt"},
                                 go   = {"b.vtu", "d.pvtu", "d_part0.vtu", "c_part.vtu",
                                         "c_partx1.vtu"};
  for (const auto *names : {&stay, &go})
    for (const std::string &name : *names)
      put_content(folder.fields() / name, "x");
  folder.keep_shapes({{"a.vtu", 1.}, {"c.pvtu", 2.}}, {});
  for (const std::string &name : stay)
    CHECK(fs::exists(folder.fields() / name));
  for (const std::string &name : go)
    CHECK_FALSE(fs::exists(folder.fields() / name));

  write_durable_file(folder.checkpoints() / "a.state", "x");
  write_durable_file(folder.checkpoints() / "a.state", "y");
  CHECK(content(folder.checkpoints() / "a.state") == "y");
  folder.clear_checkpoints();
  CHECK_FALSE(fs::exists(folder.checkpoints()));
  put_content(folder.path() / "checkpoint", "a file of that name");
  CHECK_THROWS_WITH(write_durable_file(folder.checkpoints() / "a.state", "x"),
                    Contains("cannot write"));
}

TEST_CASE("a folder whose run was killed before its first file is as good as empty",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const fs::path      left = scratch / "run/run.json.abcdefghij.part";
  fs::create_directory(scratch / "run");
  for (const ExistingRun existing : {refuse, overwrite})
  {
    put_content(left, "cut o");
    {
      const RunFolder folder(scratch / "run", existing);
      CHECK_FALSE(folder.aside());
      CHECK_FALSE(fs::exists(left));
      CHECK(holds_a_run(scratch / "run"));
    }
    fs::remove_all(scratch / "run/fields");
    fs::remove_all(scratch / "run/tools");
    fs::remove(scratch / "run/run.json");
  }
  put_content(scratch / "run/notes.txt.abcdefghij.part", "somebody's");
  CHECK_THROWS_WITH(RunFolder(scratch / "run", overwrite),
                    Contains("no run.json made by throughbend"));
}

TEST_CASE("an empty folder of checkpoints that the disk did not let go bars no way",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const fs::path      run = scratch / "run", aside = run / "unfinished";
  ended_run(run);
  fs::create_directories(aside / "checkpoint");
  {
    RunFolder next(run, overwrite); // not refused as somebody else's
    fs::create_directories(next.checkpoints());
    next.take_place();
  }
  CHECK_FALSE(fs::exists(aside));
  fs::create_directories(aside / "checkpoint");
  put_content(aside / "checkpoint/notes.txt", "somebody's");
  CHECK_THROWS_WITH(RunFolder(run, overwrite), Contains("was not made by throughbend"));
}

TEST_CASE("a run that was taking the place of another is moved in by whoever comes next",
          "[unit][output]")
{
  const ScratchFolder scratch;
  const fs::path      run = scratch / "run", aside = run / "unfinished";
  const auto          broken_off = [&](const char *state, const char *travel_there)
  {
    fs::remove_all(run);
    {
      const RunFolder earlier(run, refuse);
      put_content(earlier.travel_file(), "old");
    }
    {
      const RunFolder next(run, overwrite);
      put_content(next.summary_file(),
                  R"({"program": "throughbend", "state": "finished"})");
      put_content(next.log_file(), "new log");
      put_content(next.fields() / "a.vtu", "new shape");
      put_content(travel_there == std::string("aside") ? next.travel_file()
                                                       : run / "travel.csv",
                  "new");
    }
    put_content(run / "run.json",
                std::string(R"({"program": "throughbend", "state": ")") + state + "\"}");
  };
  const auto check_whole = [&]
  {
    CHECK(content(run / "travel.csv") == "new");
    CHECK(content(run / "log.txt") == "new log");
    CHECK(content(run / "fields/a.vtu") == "new shape");
    CHECK_THAT(content(run / "run.json"), Contains("finished"));
    CHECK_FALSE(fs::exists(aside));
  };
  broken_off("taking its place", "already moved");
  CHECK_THROWS_WITH(run_to_resume(run), Contains("is finished"));
  check_whole();
  broken_off("being replaced", "aside");
  CHECK_THROWS_WITH(run_to_resume(run), Contains("is finished"));
  check_whole();
  broken_off("taking its place", "already moved");
  {
    const RunFolder another(run, overwrite); // and stops there
  }
  CHECK(content(run / "travel.csv") == "new");
}
