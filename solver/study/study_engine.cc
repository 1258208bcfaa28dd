#include "solver/study/study_engine.h"

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"

#include <chrono>
#include <stdexcept>
#include <utility>

namespace throughbend
{
namespace
{
constexpr double patience = 0.1; // [s] between two looks at what the user wants

double now()
{
  using namespace std::chrono;
  return duration<double>(steady_clock::now().time_since_epoch()).count();
}
} // namespace

StudyEngine::StudyEngine(const StudyCase &base, std::vector<StudyKey> keys, PassCrew &crew,
                         PassShelf *shelf)
    : base_(base), keys_(std::move(keys)), crew_(crew), shelf_(shelf), started_(now())
{
}

StudyEnd StudyEngine::carry_out(StudyPlan &plan)
{
  const std::size_t made_before = passes_.size();
  std::string       failure;
  bool              stopped = false;
  for (;;)
  {
    progress_.planned = made_before + plan.planned();
    if (!stopped)
      give_out(plan);
    progress_.planned = made_before + plan.planned();
    tell();
    if (under_way_.empty())
      break;
    std::optional<PassDone> done = crew_.next_done(patience);
    if (!stopped && asked_ && asked_())
    {
      crew_.stop();
      stopped = true;
    }
    if (!done)
      continue;
    const UnderWay task = std::move(under_way_.at(done->task));
    under_way_.erase(done->task);
    if (done->pass)
      take(plan, task, std::move(*done->pass), From::crew);
    else if (!done->failure.empty() && failure.empty())
    {
      failure = done->failure;
      crew_.stop();
      stopped = true;
    }
  }
  if (!failure.empty())
    throw std::runtime_error("a pass ended with an error: " + failure +
                             ". The finished passes are kept.");
  return stopped ? StudyEnd::interrupted : StudyEnd::whole;
}

void StudyEngine::give_out(StudyPlan &plan)
{
  while (crew_.free() > 0)
  {
    std::optional<StudyPoint> point = plan.next();
    if (!point)
      return;
    CaseReading reading = base_.at(keys_, *point);
    if (!reading.value)
      throw InputError("a case of the study cannot be used:\n" +
                       error_list(reading.errors));
    UnderWay   task{*reading.value, case_hash(*reading.value), {*point}};
    const auto known = numbers_.find(task.hash);
    if (known != numbers_.end())
    {
      plan.take(*point, known->second, passes_[known->second]);
      continue;
    }
    bool is_under_way = false;
    for (auto &[number, other] : under_way_)
      if (other.hash == task.hash)
      {
        other.points.push_back(*point);
        is_under_way = true;
      }
    if (is_under_way)
      continue;
    if (std::optional<StudyPass> found =
            shelf_ != nullptr ? shelf_->find(task.given) : std::nullopt)
    {
      take(plan, task, std::move(*found), From::shelf);
      if (asked_ && asked_())
        return;
      continue;
    }
    crew_.begin(tasks_, task.given);
    under_way_.emplace(tasks_++, std::move(task));
  }
}

void StudyEngine::take(StudyPlan &plan, const UnderWay &done, StudyPass pass,
                       const From from)
{
  const std::size_t number = passes_.size();
  pass.values.clear();
  for (const StudyKey &key : keys_)
    pass.values.push_back(value_in(done.given, key));
  pass.words     = done.points.front().words;
  pass.case_hash = done.hash;
  if (shelf_ != nullptr)
  {
    if (from == From::crew)
      shelf_->keep(done.given, pass, number);
    else
      shelf_->place(done.given, pass, number);
  }
  progress_.done += 1;
  progress_.taken_over += from == From::shelf ? 1 : 0;
  progress_.outcomes[pass.outcome] += 1;
  numbers_[done.hash] = number;
  passes_.push_back(std::move(pass));
  for (const StudyPoint &point : done.points)
    plan.take(point, number, passes_.back());
}

void StudyEngine::tell()
{
  progress_.under_way = under_way_.size();
  progress_.seconds   = now() - started_;
  if (seen_)
    seen_(progress_);
}
} // namespace throughbend
