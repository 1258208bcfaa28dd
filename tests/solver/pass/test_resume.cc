// A pass that is interrupted, kept in a file and resumed ends with the very record of the
// unbroken one: to the last digit, so no tolerance and no source.

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "solver/fields/checkpoint.h"
#include "solver/pass/pass_simulation.h"
#include "solver/pass/state_fields.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"
#include "tests/solver/pass/resume_cases.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <random>

using namespace throughbend;

namespace
{
/// Keeps what it is given in files, as a run does; only when interrupted.
class FileKeeper : public StateKeeper
{
public:
  explicit FileKeeper(const std::filesystem::path &folder) : folder_(folder) {}
  bool due() override { return false; }
  void keep(const PassState &state) override
  {
    keep_checkpoint(folder_, {++number_, {}, state});
  }

private:
  std::filesystem::path folder_;
  std::uint64_t         number_ = 0;
};

struct Unbroken
{
  PassState state; ///< at the end
  Outcome   outcome    = Outcome::undecided;
  double    springback = 0;
  long      asked      = 0; ///< how often whether to stop: between Newton's iterations
};

Unbroken unbroken_pass(const Case &c)
{
  Unbroken          result;
  PassSimulation<2> pass(set_up(c), MPI_COMM_SELF);
  pass.stop_when(
      [&]
      {
        ++result.asked;
        return false;
      });
  result.outcome    = pass.run().outcome;
  result.state      = pass.state();
  result.springback = pass.release().right_springback;
  return result;
}

template <class Values>
std::string bytes_of(const Values &values)
{
  StateWriter writer;
  writer(values);
  return writer.bytes();
}

/// Interrupted after each of these numbers of questions, and resumed from files.
void break_and_compare(const Case &c, const Unbroken &whole,
                       const std::vector<long> &breaks)
{
  const ScratchFolder      folder;
  FileKeeper               keeper(folder.path());
  std::optional<PassState> state;
  std::vector<std::string> remarks;
  for (std::size_t i = 0;; ++i)
  {
    PassSimulation<2> pass(set_up(c), MPI_COMM_SELF);
    pass.keep_with(keeper);
    long asked = 0;
    pass.stop_when([&] { return i < breaks.size() && ++asked > breaks[i]; });
    if (state)
    {
      REQUIRE(pass.fault_of(*state) == "");
      pass.resume(*state);
    }
    const Finding finding = pass.run();
    if (!pass.interrupted())
    {
      CHECK(i == breaks.size());
      CHECK(finding.outcome == whole.outcome);
      CHECK(pass.release().right_springback == whole.springback);
      CHECK(bytes_of(pass.samples()) == bytes_of(whole.state.samples));
      CHECK(bytes_of(pass.samples_beyond()) == bytes_of(whole.state.beyond));
      CHECK(first_difference(pass.state(), whole.state) == "");
      return;
    }
    CHECK(finding.outcome == Outcome::undecided);
    const PassState kept = newest_checkpoint(folder.path(), remarks).state;
    CHECK(first_difference(kept, pass.state()) == "");
    CHECK(remarks.empty());
    state = kept;
  }
}
} // namespace

TEST_CASE("A pass that is interrupted at random moments and resumed is the unbroken one",
          "[resume]")
{
  std::mt19937 random(12);
  for (const ResumeCase &each : resume_cases(CaseSize::small))
  {
    const Unbroken whole = unbroken_pass(each.c);
    INFO(each.name << ", outcome " << to_text(whole.outcome) << ", asked " << whole.asked
                   << " times");
    REQUIRE(whole.asked > 60);
    CHECK((whole.outcome == Outcome::over_capacity) == (each.name == "over capacity"));
    // Three breaks, the last in the release or just before, where it is a kind of its own.
    std::uniform_int_distribution<long> part(whole.asked / 10, whole.asked * 4 / 10);
    const long                          first = part(random), second = part(random);
    const std::vector<long>             breaks = {first, second,
                                                  std::max(1l, whole.asked - first - second - 12)};
    INFO("breaks " << breaks[0] << ' ' << breaks[1] << ' ' << breaks[2]);
    break_and_compare(each.c, whole, breaks);
  }
}

TEST_CASE("A pass that is interrupted at many moments is the unbroken one",
          "[.][resume-long]")
{
  std::mt19937 random(5);
  for (const ResumeCase &each : resume_cases(CaseSize::whole))
  {
    const Unbroken                      whole = unbroken_pass(each.c);
    std::uniform_int_distribution<long> part(1, whole.asked / 6);
    for (int i = 0; i < 5; ++i)
    {
      const std::vector<long> breaks = {part(random), part(random), part(random),
                                        part(random), part(random)};
      INFO(each.name << ", breaks " << breaks[0] << ' ' << breaks[1] << ' ' << breaks[2]
                     << ' ' << breaks[3] << ' ' << breaks[4]);
      break_and_compare(each.c, whole, breaks);
    }
  }
}

TEST_CASE("An interrupt is heeded between two iterations, and leaves the last whole step",
          "[resume]")
{
  const Case        c = resume_case("");
  PassSimulation<2> pass(set_up(c), MPI_COMM_SELF);
  int               asked = 0;
  pass.stop_when([&] { return ++asked > 40; });
  pass.run();
  CHECK(pass.interrupted());
  CHECK(asked < 44); // asked again by those who called the one who was told to stop
  REQUIRE(!pass.samples().empty());
  const PassState state = pass.state();
  CHECK(state.now.travel == pass.samples().back().travel);
  CHECK(state.counts.steps == static_cast<int>(pass.samples().size()));
}

TEST_CASE("A state of another model is refused with the reason", "[resume]")
{
  const auto state_of = [](const Case &c)
  {
    PassSimulation<2> pass(set_up(c), MPI_COMM_SELF);
    return pass.state();
  };
  const PassSimulation<2> pass(set_up(resume_case("")), MPI_COMM_SELF);
  CHECK(pass.fault_of(state_of(resume_case(""))) == "");
  CHECK_THAT(pass.fault_of(state_of(resume_case("--mesh.model;full"))),
             Catch::Contains("another model"));
  PassState headless = state_of(resume_case(""));
  headless.stop      = StopReason::out;
  CHECK_THAT(pass.fault_of(headless), Catch::Contains("contradicts itself"));
}

namespace
{
/// A file as keep_checkpoint() writes it, of a few steps of a coarse coupon.
std::string small_file(const std::filesystem::path &folder)
{
  Case c       = small_coupon<2>();
  c.ram.stroke = 0.05;
  PassSimulation<2> pass(set_up(c), MPI_COMM_SELF);
  long              asked = 0;
  pass.stop_when([&] { return ++asked > 8; });
  pass.run();
  keep_checkpoint(
      folder, {2, {"1", "abc", "now", {}, "case.ini", {{"a.b", "1 mm"}}}, pass.state()});
  return content(checkpoint_slots(folder)[0]);
}

/// With the checksum that its content has.
std::string summed(std::string file)
{
  const std::uint64_t sum = std::stoull(fnv1a_hex(file.substr(48)), nullptr, 16);
  file.replace(40, 8, reinterpret_cast<const char *>(&sum), 8);
  return file;
}
} // namespace

TEST_CASE("A checkpoint that is cut off or changed in a bit is refused", "[resume]")
{
  const ScratchFolder         folder;
  const std::string           good = small_file(folder.path());
  const std::filesystem::path file = folder / "x.state";
  put_content(file, good);
  REQUIRE(read_checkpoint(file).past.case_values.size() == 1);
  REQUIRE(summed(good) == good);

  for (std::size_t n = 0; n < good.size(); n += 1 + good.size() / 60)
  {
    put_content(file, good.substr(0, n));
    CHECK_THROWS_AS(read_checkpoint(file), InputError);
  }
  for (std::size_t n = 0; n < good.size(); n += n < 60 ? 1 : 1 + good.size() / 60)
  {
    std::string spoiled = good;
    spoiled[n]          = static_cast<char>(spoiled[n] ^ 4);
    put_content(file, spoiled);
    INFO("byte " << n);
    CHECK_THROWS_AS(read_checkpoint(file), InputError);
  }
  put_content(file, good + "x");
  CHECK_THROWS_WITH(read_checkpoint(file), Catch::Contains("truncated or too long"));
  put_content(file, "");
  CHECK_THROWS_WITH(read_checkpoint(file), Catch::Contains("too short"));
  put_content(file, std::string(1000, 'x'));
  CHECK_THROWS_WITH(read_checkpoint(file),
                    Catch::Contains("not a checkpoint of throughbend"));
  std::filesystem::remove(file);
  std::filesystem::create_directory(file);
  CHECK_THROWS_AS(read_checkpoint(file), InputError);
}

TEST_CASE("A hostile checkpoint with the right checksum is read or refused, never more",
          "[resume]")
{
  const ScratchFolder         folder;
  const std::string           good    = small_file(folder.path());
  const std::filesystem::path file    = folder / "x.state";
  int                         refused = 0;
  // Lengths, choices and numbers that are beyond everything, at every place near the head
  // and at some in the rest.
  for (const char byte : {'\xff', '\x7f'})
    for (std::size_t n = 48; n + 8 < good.size(); n += n < 400 ? 1 : 1 + good.size() / 150)
    {
      std::string hostile = good;
      hostile.replace(n, 8, 8, byte);
      put_content(file, summed(hostile));
      try
      {
        read_checkpoint(file);
      }
      catch (const InputError &)
      {
        ++refused;
      }
    }
  CHECK(refused > 100); // the lengths among them
}

TEST_CASE("Of two slots the newest whole one counts, and the other is spoken of",
          "[resume]")
{
  const ScratchFolder      folder;
  std::vector<std::string> remarks;
  CHECK_THROWS_WITH(newest_checkpoint(folder.path(), remarks),
                    Catch::Contains("there is no checkpoint"));
  small_file(folder.path()); // number 2, in the first slot
  Checkpoint later = newest_checkpoint(folder.path(), remarks);
  later.number     = 3;
  keep_checkpoint(folder.path(), later);
  CHECK(newest_checkpoint(folder.path(), remarks).number == 3);
  CHECK(remarks.empty());

  const std::filesystem::path second = checkpoint_slots(folder.path())[1];
  std::string                 text   = content(second);
  put_content(second, text.substr(0, text.size() / 2));
  CHECK(newest_checkpoint(folder.path(), remarks).number == 2);
  REQUIRE(remarks.size() == 1);
  CHECK_THAT(remarks.front(), Catch::Contains("truncated"));

  put_content(checkpoint_slots(folder.path())[0], "");
  CHECK_THROWS_WITH(newest_checkpoint(folder.path(), remarks),
                    Catch::Contains("push the case again"));
}
