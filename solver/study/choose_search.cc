#include "solver/study/choose_search.h"

#include "solver/study/statistics/sample_sets.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace throughbend
{
namespace
{
constexpr double least_band_share = 0.125; // of the way to the limits
constexpr int    band_halvings    = 2; // between a share that is good and one that is not

struct Candidate
{
  FixtureValues            fixture;
  double                   best = 0;
  std::vector<std::size_t> order; ///< of the corners, those that score least first
};

struct Evaluated
{
  bool        good  = true;
  double      score = std::numeric_limits<double>::infinity();
  std::size_t worst = 0; ///< of the coupons
  std::string because;
};

/// What is counted: `check says no to clearance` of `check says no to clearance: 0.2 mm`.
std::string head(const std::string &words)
{
  // Not at the colon of "OVER CAPACITY (close: ...): ...".
  int inside = 0;
  for (std::size_t i = 0; i < words.size(); ++i)
  {
    inside += words[i] == '(' ? 1 : words[i] == ')' ? -1 : 0;
    if (words[i] == ':' && inside <= 0)
      return words.substr(0, i);
  }
  return words;
}

class Search
{
public:
  Search(const ChooseSpace &space, FixtureTrials &trials, const std::uint64_t seed)
      : space_(space), trials_(trials), seed_(seed)
  {
  }

  FixtureChoice run();

private:
  std::vector<FixtureValues> all_fixtures() const;
  std::optional<Candidate>   screened(const FixtureValues &fixture, std::string &objection);
  Evaluated                  evaluated(const FixtureValues             &fixture,
                                       const std::vector<FamilyCoupon> &coupons);
  Evaluated                  corners_of(const Candidate &candidate);
  std::string                why_not(const FixtureValues &fixture);
  ChoiceSide                 side(std::size_t key, int direction);
  void                       find_bands();
  std::vector<ChoiceBand>    bands_at(double share) const;
  std::string                band_fault(const std::vector<ChoiceBand> &bands);

  const ChooseSpace &space_;
  FixtureTrials     &trials_;
  std::uint64_t      seed_;
  FixtureChoice      choice_;
};

std::vector<FixtureValues> Search::all_fixtures() const
{
  std::vector<FixtureValues> all = {{}};
  for (const std::vector<double> &levels : space_.levels)
  {
    std::vector<FixtureValues> longer;
    for (const FixtureValues &begun : all)
      for (const double level : levels)
      {
        longer.push_back(begun);
        longer.back().push_back(level);
      }
    all = std::move(longer);
  }
  return all;
}

std::optional<Candidate> Search::screened(const FixtureValues &fixture,
                                          std::string         &objection)
{
  Candidate           candidate{fixture, std::numeric_limits<double>::infinity(), {}};
  std::vector<double> bests;
  for (const FamilyCoupon &coupon : space_.corners)
  {
    const Screened screened = trials_.screen({fixture, coupon});
    if (!screened.objection.empty())
    {
      objection = screened.objection;
      return std::nullopt;
    }
    bests.push_back(screened.best);
    candidate.best = std::min(candidate.best, screened.best);
  }
  candidate.order.resize(bests.size());
  std::iota(candidate.order.begin(), candidate.order.end(), std::size_t{0});
  std::stable_sort(candidate.order.begin(), candidate.order.end(),
                   [&](std::size_t a, std::size_t b) { return bests[a] < bests[b]; });
  return candidate;
}

Evaluated Search::evaluated(const FixtureValues             &fixture,
                            const std::vector<FamilyCoupon> &coupons)
{
  std::vector<FixtureTrial> trials;
  for (const FamilyCoupon &coupon : coupons)
    trials.push_back({fixture, coupon});
  const std::vector<Judged> judged = trials_.push(trials);
  Evaluated                 found;
  for (std::size_t i = 0; i < judged.size(); ++i)
  {
    if (!judged[i].good && found.good)
    {
      found.good    = false;
      found.because = judged[i].words;
    }
    if (judged[i].score < found.score)
    {
      found.score = judged[i].score;
      found.worst = i;
    }
  }
  return found;
}

/// The two worst first: most fixtures that fail, fail there. `worst` counts the corners.
Evaluated Search::corners_of(const Candidate &candidate)
{
  std::vector<FamilyCoupon> first, rest;
  for (std::size_t i = 0; i < candidate.order.size(); ++i)
    (i < 2 ? first : rest).push_back(space_.corners[candidate.order[i]]);
  Evaluated found = evaluated(candidate.fixture, first);
  found.worst     = candidate.order[found.worst];
  if (!found.good || rest.empty())
    return found;
  const Evaluated others = evaluated(candidate.fixture, rest);
  if (!others.good)
    return others;
  if (others.score < found.score)
  {
    found.score = others.score;
    found.worst = candidate.order[2 + others.worst];
  }
  return found;
}

std::string Search::why_not(const FixtureValues &fixture)
{
  std::string objection;
  const auto  candidate = screened(fixture, objection);
  if (!candidate)
    return objection;
  const Evaluated found = corners_of(*candidate);
  return found.good ? "" : found.because;
}

/// By halving between the choice and the end of the levels; what is told has been pushed on
/// both sides.
ChoiceSide Search::side(const std::size_t key, const int direction)
{
  const std::vector<double> &levels = space_.levels[key];
  const auto                 own    = static_cast<std::ptrdiff_t>(
      std::find(levels.begin(), levels.end(), (*choice_.fixture)[key]) - levels.begin());
  const std::ptrdiff_t end =
      direction < 0 ? 0 : static_cast<std::ptrdiff_t>(levels.size()) - 1;
  const auto reason = [&](const std::ptrdiff_t level)
  {
    FixtureValues other = *choice_.fixture;
    other[key]          = levels[static_cast<std::size_t>(level)];
    return why_not(other);
  };
  ChoiceSide  found;
  std::string because = own == end ? "" : reason(end);
  if (because.empty())
  {
    found.good   = levels[static_cast<std::size_t>(end)];
    found.at_end = true;
    return found;
  }
  std::ptrdiff_t good = own, bad = end;
  while (bad - good != direction)
  {
    const std::ptrdiff_t middle = (good + bad) / 2;
    const std::string    why    = reason(middle);
    if (why.empty())
      good = middle;
    else
    {
      bad     = middle;
      because = why;
    }
  }
  found.good    = levels[static_cast<std::size_t>(good)];
  found.bad     = levels[static_cast<std::size_t>(bad)];
  found.because = because;
  return found;
}

/// Empty: all corners of the bands and a sample are good.
std::string Search::band_fault(const std::vector<ChoiceBand> &bands)
{
  std::vector<FixtureTrial> trials;
  const std::size_t         n = bands.size();
  for (std::size_t corner = 0; corner < std::size_t{1} << n; ++corner)
  {
    FixtureValues fixture;
    bool          again = false; // a band without width has one corner
    for (std::size_t d = 0; d < n; ++d)
    {
      const bool up = (corner >> d & 1) != 0;
      again         = again || (up && bands[d].low == bands[d].high);
      fixture.push_back(up ? bands[d].high : bands[d].low);
    }
    for (const FamilyCoupon &coupon : space_.corners)
      if (!again)
        trials.push_back({fixture, coupon});
  }
  const CubePoints places = sample_points(space_.sample.size(), n, 1, seed_ + 1);
  for (std::size_t i = 0; i < space_.sample.size(); ++i)
  {
    FixtureValues fixture;
    for (std::size_t d = 0; d < n; ++d)
      fixture.push_back(bands[d].low + places[i][d] * (bands[d].high - bands[d].low));
    trials.push_back({fixture, space_.sample[i]});
  }
  for (const FixtureTrial &trial : trials)
    if (const Screened screened = trials_.screen(trial); !screened.objection.empty())
      return screened.objection;
  for (const Judged &judged : trials_.push(trials))
    if (!judged.good)
      return judged.words;
  return "";
}

std::vector<ChoiceBand> Search::bands_at(const double share) const
{
  std::vector<ChoiceBand> bands;
  for (std::size_t d = 0; d < choice_.low.size(); ++d)
  {
    const double own = (*choice_.fixture)[d];
    bands.push_back({own - share * (own - choice_.low[d].good),
                     own + share * (choice_.high[d].good - own)});
  }
  return bands;
}

/// All keys the same share of the way to their limits: first halved until it is good, then
/// halved between that and the last that is not.
void Search::find_bands()
{
  double bad = 0;
  for (double share = 1; share >= least_band_share; share /= 2)
  {
    const std::string fault = band_fault(bands_at(share));
    if (fault.empty())
    {
      choice_.band_share = share;
      break;
    }
    bad           = share;
    choice_.wider = fault;
  }
  if (choice_.band_share == 0)
    return;
  for (int i = 0; bad > 0 && i < band_halvings; ++i)
  {
    const double      share = (choice_.band_share + bad) / 2;
    const std::string fault = band_fault(bands_at(share));
    if (fault.empty())
      choice_.band_share = share;
    else
    {
      bad           = share;
      choice_.wider = fault;
    }
  }
  choice_.bands       = bands_at(choice_.band_share);
  choice_.band_sample = space_.sample.size();
}

FixtureChoice Search::run()
{
  std::vector<Candidate> candidates;
  for (const FixtureValues &fixture : all_fixtures())
  {
    ++choice_.candidates;
    std::string objection;
    if (const auto candidate = screened(fixture, objection))
      candidates.push_back(*candidate);
    else
    {
      ++choice_.by_closed_forms;
      ++choice_.objections[head(objection)];
    }
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate &a, const Candidate &b) { return a.best > b.best; });
  for (std::size_t i = 0; i < candidates.size(); ++i)
  {
    const Candidate &candidate = candidates[i];
    if (choice_.fixture && candidate.best <= choice_.score)
    {
      choice_.not_better += candidates.size() - i;
      break;
    }
    Evaluated found = corners_of(candidate);
    if (found.good && choice_.fixture && found.score <= choice_.score)
    {
      ++choice_.not_better;
      continue;
    }
    FamilyCoupon worst = space_.corners[found.worst];
    if (found.good && !space_.sample.empty())
    {
      const Evaluated inside = evaluated(candidate.fixture, space_.sample);
      if (inside.score < found.score)
        worst = space_.sample[inside.worst];
      found.score   = std::min(found.score, inside.score);
      found.good    = inside.good;
      found.because = inside.because;
    }
    if (!found.good)
    {
      ++choice_.by_passes;
      ++choice_.objections[head(found.because)];
    }
    else if (choice_.fixture && found.score <= choice_.score)
      ++choice_.not_better;
    else
    {
      choice_.not_better += choice_.fixture ? 1 : 0;
      choice_.fixture = candidate.fixture;
      choice_.score   = found.score;
      choice_.worst   = worst;
    }
  }
  if (!choice_.fixture)
    return choice_;
  for (std::size_t d = 0; d < space_.levels.size(); ++d)
  {
    choice_.low.push_back(side(d, -1));
    choice_.high.push_back(side(d, 1));
  }
  find_bands();
  return choice_;
}
} // namespace

FixtureChoice choose_fixture(const ChooseSpace &space, FixtureTrials &trials,
                             const std::uint64_t seed)
{
  return Search(space, trials, seed).run();
}
} // namespace throughbend
