// Files are written whole, aside, and through no link; what a killed program leaves aside
// is known by its name.

#include "inputs/text/growing_file.h"
#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace throughbend;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace
{
long files_in(const fs::path &folder)
{
  return std::distance(fs::directory_iterator(folder), fs::directory_iterator());
}
} // namespace

TEST_CASE("a failed write leaves the former file whole", "[unit][output]")
{
  const ScratchFolder scratch;
  write_whole_file(scratch / "a", "first");
  write_whole_file(scratch / "a", "second");
  CHECK(content(scratch / "a") == "second");
  CHECK_THROWS_WITH(write_whole_file(scratch / "no/a", "x"), Contains("No such file"));
  fs::create_directory(scratch / "taken");
  CHECK_THROWS_AS(write_whole_file(scratch / "taken", "x"), WriteError);
  CHECK(files_in(scratch.path()) == 2);
}

TEST_CASE("no link is written through", "[unit][output]")
{
  const ScratchFolder scratch;
  fs::create_directory(scratch / "run");
  fs::create_directory(scratch / "other");
  put_content(scratch / "other/mine", "mine");
  for (const char *name : {"a", "a.part"})
    fs::create_symlink(scratch / "other/mine", scratch / "run" / name);
  write_whole_file(scratch / "run/a", "ours");
  CHECK(content(scratch / "other/mine") == "mine");
  CHECK(content(scratch / "run/a") == "ours");
  CHECK_FALSE(fs::is_symlink(scratch / "run/a"));

  fs::create_directory_symlink(scratch / "other", scratch / "run/fields");
  CHECK_THROWS_WITH(write_whole_file(scratch / "run/fields/mine", "x", FolderLink::refuse),
                    Contains("fields/mine") && Contains("a link"));
  CHECK_THROWS_AS(write_durable_file(scratch / "run/fields/mine", "x"), WriteError);
  fs::create_symlink(scratch / "other/mine", scratch / "run/log");
  CHECK_THROWS_AS(GrowingFile(scratch / "run/log", GrowingFile::Start::append), WriteError);
  CHECK_THROWS_AS(GrowingFile(scratch / "run/log", GrowingFile::Start::anew), WriteError);
  CHECK(content(scratch / "other/mine") == "mine");
  CHECK(files_in(scratch / "other") == 1);
}

TEST_CASE("a file that the user named: another place is bad input, a full disk is not",
          "[unit][output]")
{
  const ScratchFolder scratch;
  CHECK_THROWS_AS(write_named_file("--into", scratch / "no/card", "x"), InputError);
  CHECK_THROWS_WITH(write_named_file("--into", scratch / "no/card", "x"),
                    Contains("--into: cannot write") && Contains("No such file"));
  CHECK_FALSE(WriteError("a", ENOSPC).is_of_the_place());
  CHECK_FALSE(WriteError("a", EIO).is_of_the_place());
  CHECK(WriteError("a", EROFS).is_of_the_place());
}

TEST_CASE("what a killed program left aside is known by its name", "[unit][output]")
{
  CHECK(name_of_aside("run/run.json.part") == "run.json");
  CHECK(name_of_aside("run.json.abcdefgh01.part") == "run.json");
  CHECK(name_of_aside("coupon_0001.vtu.abcdefgh01.part") == "coupon_0001.vtu");
  CHECK(name_of_aside("coupon_0001.vtu.abcdefgh0.part") == "coupon_0001.vtu.abcdefgh0");
  CHECK_FALSE(name_of_aside("run.json"));
}

TEST_CASE("a growing file holds every line that was put, and takes up where it was",
          "[unit][output]")
{
  const ScratchFolder scratch;
  GrowingFile         first(scratch / "log", GrowingFile::Start::anew);
  first.put("one\n");
  CHECK(content(scratch / "log") == "one\n");
  first.close();
  GrowingFile(scratch / "log", GrowingFile::Start::append).put("two\n");
  CHECK(content(scratch / "log") == "one\ntwo\n");
  CHECK_THROWS_WITH(GrowingFile("/dev/full", GrowingFile::Start::append).put("x"),
                    Contains("/dev/full") && Contains("No space left"));
}

TEST_CASE("room that was kept takes a file, and goes where it is not needed",
          "[unit][output]")
{
  const ScratchFolder scratch;
  {
    const ReservedFile unspent(scratch / "a", 1000);
    CHECK(files_in(scratch.path()) == 1);
    CHECK_FALSE(fs::exists(scratch / "a"));
  }
  CHECK(files_in(scratch.path()) == 0);
  put_content(scratch / "a", "first");
  {
    ReservedFile room(scratch / "a", 10);
    CHECK_FALSE(room.spend("more than ten bytes"));
    CHECK(content(scratch / "a") == "first");
    CHECK(room.spend("second"));
    CHECK_FALSE(room.spend("third"));
  }
  CHECK(content(scratch / "a") == "second");
  CHECK(files_in(scratch.path()) == 1);
  CHECK_THROWS_AS(ReservedFile(scratch / "no/a", 10), WriteError);
}

TEST_CASE("what another place would cure is bad input, the rest an error of the machine",
          "[unit][output]")
{
  for (const int reason : {EACCES, EROFS, ENOENT, ENOTDIR, ENAMETOOLONG})
    CHECK_THROWS_AS(throw_place_fault("x", reason), InputError);
  for (const int reason : {ENOSPC, EIO, EMFILE, EFBIG, EDQUOT})
  {
    CHECK_THROWS_AS(throw_place_fault("x", reason), std::runtime_error);
    CHECK_FALSE(is_of_the_place(reason));
  }
}
