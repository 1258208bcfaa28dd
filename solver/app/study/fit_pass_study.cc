#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"
#include "postprocess/app/fit_pass_verb.h"
#include "postprocess/fit/fit_chart.h"
#include "postprocess/fit/fit_records.h"
#include "postprocess/fit/fit_words.h"
#include "postprocess/runs/pass_sentences.h"
#include "postprocess/words/caution.h"
#include "solver/app/process/interrupt.h"
#include "solver/app/study/study_bench.h"
#include "solver/app/study/study_tasks.h"
#include "solver/study/bar_cases.h"
#include "solver/study/fit/fitted_case.h"
#include "solver/study/fit/other_units.h"

#include <fmt/core.h>

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <iostream>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

constexpr const char *fit_files[] = {"fit.json", "residuals.csv", "fit.svg", "fitted.ini"};

/// On the standard mesh, unless the command line says otherwise: the force of a quick one
/// ripples past its largest by as much as friction changes it there.
Case with_fit_mesh(const StudyCase &stated)
{
  Case       c    = stated.own();
  const auto says = [](const std::string &word)
  { return word.rfind("--mesh.level", 0) == 0; };
  if (std::none_of(stated.overrides().begin(), stated.overrides().end(), says))
    c.mesh.level = MeshLevel::standard;
  return c;
}

std::string mesh_words(const MeshSettings &mesh)
{
  if (mesh.layers > 0 || mesh.cell_size > 0)
    return fmt::format("told ({} layers)", mesh.layers);
  return mesh.level == MeshLevel::quick      ? "quick"
         : mesh.level == MeshLevel::standard ? "standard"
                                             : "fine";
}

FitPass fit_pass_of(const FitPoint &point, const StudyPass &pass, const UnitSystem units)
{
  FitPass made;
  made.point   = point;
  made.outcome = pass.outcome;
  made.verdict = pass_verdict(pass, shown_in(units));
  made.lets_go = pass.outcome == "through" || pass.outcome == "dropped";
  for (std::size_t i = 0; i < pass.travel.size(); ++i)
    if (made.travel.empty() || pass.travel[i] > made.travel.back())
    {
      made.travel.push_back(pass.travel[i]);
      made.force.push_back(pass.force[i]);
    }
    else
      made.force.back() = pass.force[i]; // after a jump, at the same travel
  const auto figure = [&](const char *name)
  {
    const auto found = pass.figures.find(name);
    return found == pass.figures.end() ? NAN : found->second;
  };
  // A wire is pushed under the crown at mid-width; in 3D the curled edge stands off more.
  const double at_mid_width = figure("across_the_width.nose_gap_mid_width_end_mm");
  const double left         = figure("release.left_angle_free_deg"),
               right        = figure("release.right_angle_free_deg");
  const std::pair<EndKind, double> ends[] = {
      {EndKind::leg_angle, (left + right) / 2},
      {EndKind::bend_angle, left + right},
      {EndKind::springback,
       (figure("release.left_springback_deg") + figure("release.right_springback_deg")) /
           2},
      {EndKind::nose_gap,
       std::isfinite(at_mid_width) ? at_mid_width : figure("fit.nose_gap_end_mm")},
      {EndKind::elongation, figure("convex_face.at_end.gauge_mean_elongation")}};
  for (const auto &[kind, value] : ends)
    if (std::isfinite(value))
      made.ends[kind] = value;
  return made;
}

/// Makes the passes of a fit on the crew, each looked up in the store before.
class FitPasses
{
public:
  FitPasses(const Case &own, const ShopReadings &readings, PassCrew &crew,
            StudyStore &store, const StudyOrder &order)
      : own_(own), crew_(crew), store_(store),
        line_(std::cerr,
              order.speech == Speech::full ? audience_at(STDERR_FILENO) : Audience::nobody),
        units_(order.units)
  {
    double peak = 0;
    for (const Reading &reading : readings.push)
      peak = std::max(peak, reading.force);
    // A pass must not end where this jack would: the readings show that it did not.
    // Rounded, so that other readings of the same push find the same passes in the store.
    own_.ram.capacity =
        std::max(own.ram.capacity, std::pow(2, std::ceil(std::log2(3 * peak))));
    read_           = 5 * std::ceil(readings.push.back().travel / 5 + 1);
    own_.ram.stroke = std::max(own.ram.stroke, read_);
    other_mesh_     = bar_cases(own).front().changed.mesh;
  }

  std::optional<std::vector<FitPass>> make(const std::vector<FitAsk> &asks)
  {
    std::vector<std::optional<FitPass>> made(asks.size());
    std::vector<Case>                   cases;
    for (const FitAsk &ask : asks)
    {
      Case c = case_at(own_, ask.point);
      if (ask.mesh == FitMesh::finer)
        c.mesh = other_mesh_;
      if (ask.length == FitLength::read)
        c.ram.stroke = std::min(c.ram.stroke, read_);
      cases.push_back(c);
    }
    progress_.planned += asks.size();
    std::string failure;
    std::size_t next = 0, under_way = 0;
    bool        stopped = false;
    while (under_way > 0 || (!stopped && next < asks.size()))
    {
      while (!stopped && next < asks.size() && crew_.free() > 0)
      {
        if (const auto found = store_.find(cases[next]))
        {
          take(*found, cases[next], asks[next], made[next]);
          ++progress_.taken_over;
        }
        else
        {
          crew_.begin(next, cases[next]);
          ++under_way;
        }
        ++next;
      }
      progress_.under_way = under_way;
      line_.show(progress_);
      if (!stopped && interrupt_asked())
      {
        crew_.stop();
        stopped = true;
      }
      if (under_way == 0)
        continue;
      const auto done = crew_.next_done(0.1);
      if (!done)
        continue;
      --under_way;
      if (done->pass)
        take(*done->pass, cases[done->task], asks[done->task], made[done->task]);
      else if (!done->failure.empty())
      {
        failure = done->failure;
        crew_.stop();
        stopped = true;
      }
    }
    line_.finish();
    if (!failure.empty())
      throw std::runtime_error("a pass ended with an error: " + failure +
                               ". The finished passes are kept.");
    std::vector<FitPass> all;
    for (std::optional<FitPass> &one : made)
      if (one)
        all.push_back(std::move(*one));
    if (all.size() < asks.size())
      return std::nullopt;
    return all;
  }

  const StudyProgress &progress() const { return progress_; }
  const MeshSettings  &other_mesh() const { return other_mesh_; }

private:
  void take(const StudyPass &pass, const Case &c, const FitAsk &ask,
            std::optional<FitPass> &into)
  {
    store_.keep(c, pass, progress_.done);
    ++progress_.done;
    ++progress_.outcomes[pass.outcome];
    progress_.seconds += pass.seconds;
    into = fit_pass_of(ask.point, pass, units_);
  }

  Case          own_;
  PassCrew     &crew_;
  StudyStore   &store_;
  StudyLine     line_;
  StudyProgress progress_;
  MeshSettings  other_mesh_;
  UnitSystem    units_;    ///< of what is printed
  double        read_ = 0; ///< stroke that readings need [mm]
};

void check_folder(const StudyOrder &order)
{
  std::error_code fault;
  if (fs::exists(order.folder / "run.json", fault) ||
      fs::exists(order.folder / "study.db", fault))
    throw InputError("--out " + order.folder.string() +
                     " is the folder of a run or of another study. Choose another "
                     "folder.");
  if (!order.overwrite)
    for (const char *const file : fit_files)
      if (fs::exists(order.folder / file, fault))
        throw InputError(
            (order.folder / file).string() +
            " exists already. Choose another folder with --out, or replace the fit with "
            "--overwrite; its passes are used again.");
}
} // namespace

ExitCode fit_pass_study(const VerbArguments &given, const StudyCase &stated,
                        std::unique_ptr<PassCrew> crew)
{
  const FitPassOrder order = fit_pass_order(given);
  const Case         own   = with_fit_mesh(stated);
  FitQuestion        question;
  question.readings        = shop_readings(ShopTable::read(order.readings), own);
  question.friction        = own.friction.shoulders;
  question.held            = order.held;
  question.coherence       = own.coupon.thickness;
  question.finer_is_better = own.mesh.level != MeshLevel::fine || own.mesh.layers > 0;
  check_folder(order.study);
  std::error_code fault;
  fs::create_directories(order.study.folder, fault);
  const FolderLock lock(order.study.folder);
  StudyStore       store(order.study.folder / "passes",
                         PassOrigin{program_identity(), AtCapacity::stop});
  if (order.study.speech == Speech::full)
    for (const std::string &remark : question.readings.remarks)
      std::cerr << "note: " << remark << '\n';

  FitPasses       passes(own, question.readings, *crew, store, order.study);
  const auto      began = std::chrono::steady_clock::now();
  const FitSearch search =
      fit_search(question, other_units(question.readings),
                 [&](const std::vector<FitAsk> &asks) { return passes.make(asks); });
  if (search.interrupted)
  {
    std::cerr << "throughbend: interrupted. The finished passes are in "
              << (order.study.folder / "passes").string()
              << ". The same command continues from there.\n";
    return ExitCode::interrupted;
  }
  const FitJudgement judgement = judged(search, question);
  const fs::path     fitted    = order.study.folder / "fitted.ini";
  FitReport report{question, search, judgement, own, stated.name(), "", "", "", 0, 0, 0};
  report.mesh       = mesh_words(own.mesh);
  report.other_mesh = mesh_words(passes.other_mesh());
  report.passes     = passes.progress().done;
  report.taken_over = passes.progress().taken_over;
  report.seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  const Case at_best =
      case_at(stated.own(), {search.fit.estimate[0], search.fit.estimate[1]});
  const std::string text = effective_text(at_best);
  // A law whose keys cannot hold its curve times a factor would come back as another metal.
  const CaseReading back = read_case_text(text, fitted.string(), {});
  if (is_offered(judgement) && back.value && case_hash(*back.value) == case_hash(at_best))
  {
    report.fitted_file = fitted.string();
    write_whole_file(fitted, fitted_head(report) + text);
  }
  else
    fs::remove(fitted, fault); // of an earlier fit, with --overwrite
  write_whole_file(order.study.folder / "fit.json", fit_json(report));
  write_whole_file(order.study.folder / "residuals.csv", residuals_csv(report));
  write_whole_file(order.study.folder / "fit.svg", fit_chart(report));
  std::cout << fit_text(report, order.study.units)
            << fmt::format("\n{} passes, {} of them reused; {}\n", report.passes,
                           report.taken_over, duration_text(report.seconds))
            << "Fit in " << order.study.folder.string()
            << ": fit.json, residuals.csv, fit.svg\n\n"
            << caution_text() << std::flush;
  return is_offered(judgement) ? ExitCode::finding : ExitCode::undecided;
}
} // namespace throughbend
