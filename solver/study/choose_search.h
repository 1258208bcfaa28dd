#pragma once
// The search for a fixture that takes a whole family of coupons: closed forms discard and
// bound first, passes decide. Knows neither cases nor threads, so that it is tested with
// made-up passes.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// A coupon of the family: values of its keys, and keys without a number as words.
struct FamilyCoupon
{
  std::vector<double>      values; ///< [N, mm, MPa, s; -]
  std::vector<std::string> words;  ///< `--material.grade` `s355`
};

/// Values of the free keys [N, mm, MPa, s; -].
using FixtureValues = std::vector<double>;

struct FixtureTrial
{
  FixtureValues fixture;
  FamilyCoupon  coupon;
};

struct Screened
{
  std::string objection; ///< why the coupon cannot be for this fixture; empty: it may
  double      best = 0;  ///< no pass scores more
};

struct Judged
{
  bool        good  = false; ///< a sound pass, which is known; anything else is not good
  double      score = 0;     ///< the more the better
  std::string words;         ///< why it is not good
};

class FixtureTrials
{
public:
  virtual ~FixtureTrials()                           = default;
  virtual Screened screen(const FixtureTrial &trial) = 0;
  /// All at once. Throws StudyStopped where its user stops the study.
  virtual std::vector<Judged> push(const std::vector<FixtureTrial> &trials) = 0;
};

struct StudyStopped
{
};

struct ChooseSpace
{
  std::vector<std::vector<double>> levels; ///< of each free key, rising
  std::vector<FamilyCoupon>        corners, sample;
};

/// How far a free key may go from the choice in one direction, the others as chosen.
struct ChoiceSide
{
  double      good   = 0;     ///< the last level that takes all corners
  bool        at_end = false; ///< it is the last of the levels
  double      bad    = 0;     ///< the next one, which does not
  std::string because;        ///< why not
};

struct ChoiceBand
{
  double low = 0, high = 0;
};

struct FixtureChoice
{
  std::size_t candidates = 0, by_closed_forms = 0, by_passes = 0, not_better = 0;
  std::map<std::string, std::size_t> objections; ///< how many fixtures each discarded

  std::optional<FixtureValues> fixture;   ///< none: no fixture takes the family
  double                       score = 0; ///< of its worst coupon
  FamilyCoupon                 worst;
  std::vector<ChoiceSide>      low, high; ///< one for each free key
  /// All corners of these bands with all corners of the family, and a sample, are good.
  /// Empty: not even an eighth of the way to the limits is.
  std::vector<ChoiceBand> bands;
  double                  band_share  = 0; ///< of the way to the limits [-]
  std::size_t             band_sample = 0;
  std::string             wider; ///< why the next wider bands are not good
};

/// Fixtures come in the order of what closed forms think possible, so that the search ends
/// where no fixture left could be better (branch and bound). Two worst coupons are pushed
/// before the others.
FixtureChoice choose_fixture(const ChooseSpace &space, FixtureTrials &trials,
                             std::uint64_t seed);
} // namespace throughbend
