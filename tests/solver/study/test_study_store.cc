// The store: what is kept comes back whole, and nothing stale ever does.

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "postprocess/runs/pass_sentences.h"
#include "solver/study/file/study_pass_text.h"
#include "solver/study/pass_record.h"
#include "solver/study/study_csv.h"
#include "solver/study/study_store.h"
#include "tests/solver/study/made_up.h"
#include "tests/support/made_up_summaries.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>
#include <thread>

using namespace throughbend;

namespace
{
const PassOrigin origin{"throughbend 0.1.0 abc", AtCapacity::go_on};

Case thick(const double thickness)
{
  const StudyCase base(case_text(), "made up", {});
  return *base.at({base.key("coupon.thickness", UnitSystem::metric)}, {{thickness}}).value;
}

StudyRequest request()
{
  return {StudyKind::limit,
          "made up",
          effective_text(thick(10)),
          {{"coupon.thickness", "mm", 1, 10}},
          "until through"};
}

StudyPass pass_at(const double thickness)
{
  StudyPass pass = made_up("through");
  pass.values    = {thickness};
  pass.case_hash = case_hash(thick(thickness));
  return pass;
}
} // namespace

TEST_CASE("A study is read back as it was kept", "[study]")
{
  const ScratchFolder scratch;
  StudyPass           pass = pass_at(1 / 3. + 9);
  pass.words               = {"--material.grade", "S355"};
  pass.events              = {"leg ironed"};
  pass.held                = "squeezed";
  pass.moments.push_back(
      {12.5, 3e4, {"coupon", {0.12345678, 2}, {3, 4}}, {{"plunger", {1, 2}, {5, 6}}}});
  {
    StudyStore store(scratch.path() / "deep/study", origin);
    CHECK_FALSE(store.earlier());
    store.begin(request());
    store.keep(thick(9), pass_at(9), 1);
    store.keep(thick(pass.values[0]), pass, 0);
    store.plan(7);
    store.answer("{\"until\": \"through\"}");
    store.end(true);
  }
  CHECK(is_study(scratch.path() / "deep/study"));
  const StudyRecord record = read_study(scratch.path() / "deep/study");
  CHECK(record.kind == StudyKind::limit);
  CHECK(record.title == "made up");
  CHECK(record.case_text == effective_text(thick(10)));
  REQUIRE(record.keys.size() == 1);
  CHECK(record.keys[0].key == "coupon.thickness");
  CHECK(record.planned == 7);
  CHECK(record.whole);
  CHECK(record.answers == "{\"until\": \"through\"}");
  REQUIRE(record.passes.size() == 2);
  const StudyPass &back = record.passes[0];
  CHECK(back.values == pass.values); // to the last digit
  CHECK(back.words == pass.words);
  CHECK(back.events == pass.events);
  CHECK(back.held == pass.held);
  CHECK(back.figures == pass.figures);
  CHECK(back.force == pass.force);
  CHECK(back.verdict == pass.verdict);
  REQUIRE(back.moments.size() == 2);
  CHECK(back.moments[1].coupon.x[0] == Approx(0.1235).margin(1e-12)); // a ten-thousandth
  CHECK(back.moments[1].tools.at(0).name == "plunger");
  CHECK(record.passes[1].values == std::vector<double>{9});

  const std::string csv = study_csv(record);
  CHECK_THAT(csv,
             Catch::StartsWith("coupon.thickness [mm],also,outcome,held,metal,accuracy,"
                               "capacity_margin,peak_ram_force_N,"));
  CHECK(std::count(csv.begin(), csv.end(), '\n') == 3);
}

TEST_CASE("A pass says its finding in the units of its reader, from the store too",
          "[study]")
{
  RunSummary summary = invented_summary(); // through, out at 71.12 mm
  summary.finding->account << "Clear after ";
  summary.finding->account.add(Evidence::Measure::length, 25.4) << ".";
  const StudyPass pass = pass_of_text(pass_text(pass_record(summary, {})));
  const auto      us   = shown_in(UnitSystem::us);
  CHECK_THAT(pass_verdict(pass, us), Catch::Contains("2.800 in") && !Catch::Contains("mm"));
  CHECK(pass_evidence(pass, us) == "Clear after 1.000 in.");
  const auto metric = shown_in(UnitSystem::metric);
  CHECK(pass_verdict(pass, metric) == pass.verdict);
  CHECK_THAT(pass.verdict, Catch::Contains("71.1 mm"));
  CHECK(pass_evidence(pass, metric) == "Clear after 25.4 mm.");

  // As older versions kept it.
  StudyPass   old  = made_up("through");
  std::string text = pass_text(old);
  const auto  at   = text.find("\"accounts\":\"\",");
  REQUIRE(at != std::string::npos);
  old = pass_of_text(text.erase(at, std::string("\"accounts\":\"\",").size()));
  CHECK(pass_verdict(old, us) == "through, made up");
  CHECK(pass_evidence(old, us) == "Invented.");
  old.accounts = "no JSON";
  CHECK_THROWS_AS(pass_verdict(old, us), InputError);
}

TEST_CASE("Nothing stale is taken over", "[study]")
{
  const ScratchFolder scratch;
  {
    StudyStore store(scratch.path(), origin);
    store.begin(request());
    store.keep(thick(9), pass_at(9), 0);
    CHECK(store.find(thick(9)));
    CHECK_FALSE(store.find(thick(9.000001)));
    Case other             = thick(9);
    other.friction.plunger = 0.11;
    CHECK_FALSE(store.find(other));
    other = thick(9);
    other.solver.residual_tolerance /= 2;
    CHECK_FALSE(store.find(other));
    other       = thick(9);
    other.title = "called otherwise"; // changes nothing in the pass
    other.solver.checkpoint_every += 1;
    CHECK(store.find(other));
  }
  // Another revision, another version, another order.
  CHECK_FALSE(StudyStore(scratch.path(), {"throughbend 0.1.0 abd", AtCapacity::go_on})
                  .find(thick(9)));
  CHECK_FALSE(StudyStore(scratch.path(), {"throughbend 0.1.0 abc", AtCapacity::stop})
                  .find(thick(9)));
  CHECK(StudyStore(scratch.path(), origin).find(thick(9)));

  // Two cases of one hash are still two: the file says what each pass is made from.
  StudyDatabase database(scratch.path() / study_file_name, StudyAccess::write);
  database("UPDATE pass SET made_from = made_from || 'more'").run();
  CHECK_FALSE(StudyStore(scratch.path(), origin).find(thick(9)));
}

TEST_CASE("Passes of an earlier study are taken over by what they are made from", "[study]")
{
  const ScratchFolder scratch;
  {
    StudyStore old(scratch.path() / "old", origin);
    old.begin(request());
    old.keep(thick(9), pass_at(9), 0);
    StudyStore other(scratch.path() / "old", {"throughbend 0.2.0 xyz", AtCapacity::go_on});
    other.keep(thick(10), pass_at(10), 1);
  }
  StudyStore                 store(scratch.path() / "new", origin);
  const StudyStore::Reusable found = store.reuse(scratch.path() / "old");
  CHECK(found.fitting == 1);
  CHECK(found.others == 1);
  store.begin(request());
  const auto pass = store.find(thick(9));
  REQUIRE(pass);
  store.place(thick(9), pass_at(9), 0);
  CHECK_FALSE(store.find(thick(10)));
  CHECK(read_study(scratch.path() / "new").passes.size() == 1);
  CHECK_THROWS_AS(store.reuse(scratch.path() / "nowhere"), InputError);
}

TEST_CASE("A study that is begun again keeps its passes, and notes anew which are its own",
          "[study]")
{
  const ScratchFolder scratch;
  StudyStore          store(scratch.path(), origin);
  store.begin(request());
  store.keep(thick(9), pass_at(9), 0);
  store.answer("{}");
  store.end(true);
  const auto earlier = store.earlier();
  REQUIRE(earlier);
  CHECK(earlier->words == "until through");
  CHECK(earlier->kind == StudyKind::limit);
  CHECK(earlier->case_text == request().case_text);
  store.begin(request());
  const StudyRecord record = read_study(scratch.path());
  CHECK_FALSE(record.whole);
  CHECK(record.passes.empty());
  CHECK(record.answers.empty());
  CHECK(store.find(thick(9)));
}

TEST_CASE("A writer that is killed leaves whole passes only", "[study]")
{
  const ScratchFolder scratch;
  {
    StudyStore store(scratch.path(), origin);
    store.begin(request());
  }
  const pid_t child = fork();
  if (child == 0)
  {
    StudyStore store(scratch.path(), origin);
    for (std::size_t i = 0;; ++i)
      store.keep(thick(9 + 0.001 * static_cast<double>(i)), pass_at(9), i);
  }
  std::size_t passes = 0;
  for (int i = 0; i < 2000 && passes < 5; ++i)
  {
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
    passes = read_study(scratch.path()).passes.size();
  }
  kill(child, SIGKILL);
  int status = 0;
  waitpid(child, &status, 0);
  REQUIRE(WIFSIGNALED(status));
  const StudyRecord record = read_study(scratch.path());
  CHECK(record.passes.size() >= 5);
  StudyStore store(scratch.path(), origin);
  for (std::size_t i = 0; i < record.passes.size(); ++i)
    CHECK(store.find(thick(9 + 0.001 * static_cast<double>(i))));
}

TEST_CASE("Two writers into one file lose nothing", "[study]")
{
  const ScratchFolder scratch;
  {
    StudyStore store(scratch.path(), origin);
    store.begin(request());
  }
  constexpr int            each = 20;
  std::vector<std::thread> writers;
  std::atomic<int>         failures{0};
  for (int writer = 0; writer < 2; ++writer)
    writers.emplace_back(
        [&, writer]
        {
          try
          {
            StudyStore store(scratch.path(), origin);
            for (int i = 0; i < each; ++i)
              store.keep(thick(9 + 0.01 * i + writer), pass_at(9),
                         static_cast<std::size_t>(writer * each + i));
          }
          catch (const std::exception &)
          {
            ++failures;
          }
        });
  for (std::thread &writer : writers)
    writer.join();
  CHECK(failures == 0);
  CHECK(read_study(scratch.path()).passes.size() == 2 * each);
}

TEST_CASE("A full disk is said, and what was kept before is whole", "[study]")
{
  const ScratchFolder scratch;
  {
    StudyStore store(scratch.path(), origin);
    store.begin(request());
    store.keep(thick(9), pass_at(9), 0);
  }
  const pid_t child = fork();
  if (child == 0)
  {
    // No file may grow beyond what it has: the system then refuses as on a full disk.
    std::signal(SIGXFSZ, SIG_IGN);
    const auto   size = std::filesystem::file_size(scratch.path() / study_file_name);
    const rlimit most{size, size};
    setrlimit(RLIMIT_FSIZE, &most);
    int code = 1;
    try
    {
      StudyStore store(scratch.path(), origin);
      for (std::size_t i = 1; i < 200; ++i)
        store.keep(thick(9 + 0.01 * static_cast<double>(i)), pass_at(9), i);
    }
    catch (const InputError &)
    {
      code = 2; // it is the machine's fault, not the user's
    }
    catch (const std::runtime_error &)
    {
      code = 5;
    }
    _exit(code);
  }
  int status = 0;
  waitpid(child, &status, 0);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 5);
  CHECK(read_study(scratch.path()).passes.size() >= 1);
  CHECK(StudyStore(scratch.path(), origin).find(thick(9)));
}

TEST_CASE("What is no study is refused with the reason", "[study]")
{
  const ScratchFolder scratch;
  CHECK_FALSE(is_study(scratch.path()));
  CHECK_THROWS_WITH(read_study(scratch.path()), Catch::Contains("no study"));
  std::ofstream(scratch.path() / study_file_name)
      << "a letter to the foreman, of some length "
         "and with no table in it at all.\n";
  CHECK_THROWS_WITH(read_study(scratch.path()), Catch::Contains("not the file of a"));
  CHECK_THROWS_AS(StudyStore(scratch.path(), origin), InputError);
  CHECK_THROWS_AS(pass_of_text("{}"), InputError);
  CHECK_THROWS_AS(pass_of_text("nothing"), InputError);
  std::filesystem::remove(scratch.path() / study_file_name);
  StudyDatabase later(scratch.path() / study_file_name, StudyAccess::write);
  later("PRAGMA user_version = 99").run();
  CHECK_THROWS_WITH(read_study(scratch.path()), Catch::Contains("later throughbend"));
}
