#include "solver/app/study/study_bench.h"

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/whole_file.h"
#include "postprocess/app/version.h"
#include "postprocess/words/caution.h"
#include "solver/app/process/interrupt.h"
#include "solver/study/bar_cases.h"
#include "solver/study/part_plan.h"
#include "solver/study/study_csv.h"

#include <fmt/core.h>

#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iostream>
#include <iterator>
#include <utility>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

/// For --merge: makes no pass, and counts those it was asked for.
class NoCrew : public PassCrew
{
public:
  explicit NoCrew(std::size_t &missing) : missing_(missing) {}
  std::size_t free() const override { return asked_.empty() ? 1 : 0; }
  void        begin(const std::size_t task, const Case &) override
  {
    ++missing_;
    asked_.push_back(task);
  }
  std::optional<PassDone> next_done(double) override
  {
    if (asked_.empty())
      return std::nullopt;
    PassDone done;
    done.task = asked_.back();
    asked_.pop_back();
    return done;
  }
  void stop() override {}

private:
  std::size_t             &missing_;
  std::vector<std::size_t> asked_;
};

/// Folders of parts below a study's, in alphabetical order.
std::vector<fs::path> parts_in(const fs::path &folder)
{
  std::vector<fs::path> parts;
  std::error_code       fault;
  for (const fs::directory_entry &entry : fs::directory_iterator(folder, fault))
    if (entry.path().filename().string().rfind("part-", 0) == 0 && is_study(entry.path()))
      parts.push_back(entry.path());
  std::sort(parts.begin(), parts.end());
  return parts;
}
} // namespace

std::string program_identity()
{
  const std::string revision = git_revision();
  std::string       identity = "throughbend " + program_version() + " " + revision;
  if (!revision.empty() && revision.find("-dirty") == std::string::npos)
    return identity;
  std::ifstream in("/proc/self/exe", std::ios::binary);
  return identity + " program " +
         fnv1a_hex({std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()});
}

StudyBench::StudyBench(const StudyOrder &order, const StudyCase &base, const StudyKind kind,
                       std::vector<StudyKey> keys, const std::string &question,
                       std::unique_ptr<PassCrew> crew)
    : order_(order), base_(base),
      folder_(order.part ? order.folder / order.part->folder() : order.folder),
      crew_(std::move(crew)),
      line_(std::cerr,
            order.speech == Speech::full ? audience_at(STDERR_FILENO) : Audience::nobody)
{
  const StudyRequest request{kind, base.own().title, effective_text(base.own()), keys,
                             question};
  if (order.bars == Bars::wanted && base.own().mesh.dimension != 2)
    throw InputError("--bars needs mesh.dimension = 2.");
  for (const fs::path &folder : order.reuse)
    if (!is_study(folder))
      throw InputError("--reuse " + folder.string() +
                       ": there is no study in that folder.");
  std::error_code fault;
  if (!fs::is_directory(folder_, fault) && !fs::create_directories(folder_, fault))
    throw_place_fault("the folder --out " + folder_.string() + " cannot be made" +
                          (fault ? ": " + fault.message() : "") + ".",
                      fault ? fault.value() : ENOTDIR);
  if (fs::exists(folder_ / "run.json", fault))
    throw InputError("--out " + folder_.string() +
                     " is the folder of a run. Choose another for the study.");
  lock_.emplace(folder_);
  store_ = std::make_unique<StudyStore>(folder_,
                                        PassOrigin{program_identity(), order.at_capacity});
  if (const auto earlier = store_->earlier();
      earlier && !order.overwrite &&
      (earlier->kind != kind || earlier->case_text != request.case_text ||
       earlier->words != question))
    throw InputError(
        "the folder " + folder_.string() +
        " holds another study: " + to_text(earlier->kind) + " " + earlier->words +
        (earlier->case_text != request.case_text ? " (of another case)" : "") +
        ". Choose another folder with --out, and reuse its passes with --reuse " +
        folder_.string() + "; or add --overwrite to replace it; its passes are kept.");
  for (const fs::path &folder : order.reuse)
    take_over(folder);
  if (!order.part)
    for (const fs::path &folder : parts_in(folder_))
      take_over(folder);
  if (order.speech == Speech::full)
    for (const std::string &sentence : base.what_stays(request.keys))
      std::cerr << "note: " << shown_text(sentence) << '\n';
  store_->begin(request);
  if (order.merge)
    crew_ = std::make_unique<NoCrew>(missing_);
  engine_ = std::make_unique<StudyEngine>(base_, std::move(keys), *crew_, store_.get());
  engine_->stop_when(interrupt_asked);
  std::size_t planned = 0;
  engine_->on_progress(
      [this, planned](const StudyProgress &progress) mutable
      {
        line_.show(progress);
        taken_over_ = progress.taken_over;
        seconds_    = progress.seconds;
        if (progress.planned != planned)
          store_->plan(progress.planned);
        planned = progress.planned;
      });
}

void StudyBench::take_over(const fs::path &folder)
{
  const StudyStore::Reusable passes = store_->reuse(folder);
  if (passes.others > 0 && order_.speech == Speech::full)
    std::cerr << fmt::format("note: {} of the passes in {} were made by another version "
                             "of throughbend and are not reused.\n",
                             passes.others, shown_text(folder.string()));
}

StudyEnd StudyBench::carry_out(StudyPlan &plan)
{
  StudyEnd end;
  if (order_.part)
  {
    PartPlan part(plan, order_.part->part, order_.part->of);
    end = engine_->carry_out(part);
  }
  else
    end = engine_->carry_out(plan);
  line_.finish();
  return end;
}

std::string StudyBench::own_bars_text()
{
  std::vector<BarCase> cases = bar_cases(base_.own());
  cases.push_back({{"as it is", BarPass::Kind::numerics}, base_.own()});
  ErrorBars bars = error_bars({}, cases, *crew_, interrupt_asked);
  bars.own       = bars.passes.back().figures;
  bars.passes.pop_back();
  return error_bars_text(bars, order_.units);
}

ExitCode StudyBench::close(const StudyEnd end, const std::string &answers,
                           const std::string &text, const Question question)
{
  line_.finish();
  const bool whole = end == StudyEnd::whole && missing_ == 0 && !order_.part;
  if (!answers.empty())
    store_->answer(answers);
  store_->end(whole);
  write_durable_file(folder_ / "study.csv", study_csv(read_study(folder_)),
                     FolderLink::follow);

  const std::size_t all       = passes().size();
  std::size_t       undecided = 0;
  for (const StudyPass &pass : passes())
    undecided += pass.outcome == "undecided" ? 1 : 0;
  std::cout << shown_lines(text);
  if (order_.bars == Bars::wanted && whole)
    std::cout << "\nThe unchanged case. " << shown_lines(own_bars_text());
  std::cout << fmt::format("\n{} passes, {} of them reused, {} undecided; {}\n", all,
                           taken_over_, undecided, duration_text(seconds_));
  std::cout << "Study in " << shown_text(folder_.string())
            << ": study.db, study.csv. To look at it: throughbend report "
            << shown_text(folder_.string()) << "\n\n"
            << caution_text() << std::flush;
  if (missing_ > 0)
    std::cerr << fmt::format(
        "throughbend: {} passes are missing: their parts were not made, or were made by "
        "another version. The same command without --merge makes them.\n",
        missing_);
  if (end == StudyEnd::interrupted)
  {
    std::cerr << "throughbend: interrupted. The finished passes are in "
              << shown_text(folder_.string())
              << ". The same command continues from "
                 "there.\n";
    return ExitCode::interrupted;
  }
  return question == Question::open || missing_ > 0 ? ExitCode::undecided
                                                    : ExitCode::finding;
}
} // namespace throughbend
