#include "inputs/metal/tabulated_flow.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
using Law = std::function<double(double)>;

// Stress may fall by so much of itself between two places: rounding.
constexpr double rounding = 1e-12;
// Over a piece as short as this share of its strain a rise by more than this share of the
// stress is a jump.
constexpr double jump_width = 1e-9, jump_share = 1e-4;
// A smooth formula needs no piece as short as this share of its strain.
constexpr double kink_width = 1e-3;
// Of the tolerance, for pieces by themselves: joining them takes some of it too.
constexpr double fill_share = 0.2;
// Nor does its slope change so much of itself from one piece to the next.
constexpr double kink_turn = 0.02;

/// Strains between which pieces are looked for.
std::vector<double> raster()
{
  std::vector<double> strains{0, TabulatedFlow::first_strain};
  const double        ratio = std::pow(10., 1. / 3);
  while (strains.back() * ratio < 0.05)
    strains.push_back(strains.back() * ratio);
  for (int i = 1; i <= 20; ++i)
    strains.push_back(0.05 * i);
  for (int i = 3; i <= 20; ++i)
    strains.push_back(0.5 * i);
  strains.back() = TabulatedFlow::last_strain;
  return strains;
}

/// Parts into which a piece is cut to look at the formula, a multiple of six.
std::size_t parts_of(const double from, const double width)
{
  const double apart = from < 1 ? 0.005 : 0.1;
  return 6 * static_cast<std::size_t>(std::clamp(std::ceil(width / apart), 1., 20.));
}

std::string strain_text(const double p)
{
  return fmt::format("p = {:.4g}", p);
}

std::string stress_text(const double stress)
{
  return fmt::format("{:.6g} MPa", stress);
}
} // namespace

TabulatedFlow::TabulatedFlow(const Law &formula)
{
  const std::vector<double> strains = raster();
  const double              first   = formula(0);
  end_ = {0, std::isfinite(first) ? std::max(first, 0.) : 0, 0};
  if (!std::isfinite(first))
    stop(0, "is not a finite number at p = 0");
  else if (!(first > 0))
    stop(0, fmt::format("is {} at p = 0, where it must be the yield stress",
                        stress_text(first)));
  Point from{0, first};
  for (std::size_t i = 1; i < strains.size() && fault_.empty(); ++i)
  {
    const Point to{strains[i], formula(strains[i])};
    if (i == 1)
    {
      // A power of p rises steeply from 0, but over a thousandth of the way by less.
      const double rise = to.stress - from.stress;
      if (rise > jump_share * first && formula(first_strain / 1000) - first > 0.9 * rise)
      {
        stop(0, fmt::format("jumps from {} to {} at p = 0", stress_text(first),
                            stress_text(to.stress)));
        break;
      }
      if (std::isfinite(to.stress) && rise >= -rounding * first)
      {
        add(from, to, {from.stress, std::max(0., rise) / first_strain, 0, 0, 0});
        from = to;
        continue;
      }
    }
    if (!fill(formula, from, to))
      break;
    from = to;
  }
  if (pieces_.empty())
    add({0, end_.stress}, {first_strain, end_.stress}, {end_.stress, 0, 0, 0, 0});
  join();
}

bool TabulatedFlow::stop(const double strain, const std::string &fault)
{
  fault_        = fault;
  fault_strain_ = strain;
  return false;
}

void TabulatedFlow::add(const Point &from, const Point &to, const Piece &piece)
{
  const double width = to.strain - from.strain;
  starts_.push_back(from.strain);
  pieces_.push_back(piece);
  end_ = {to.strain, to.stress,
          std::max(0., piece.slope + width * (2 * piece.square + 3 * width * piece.cube))};
}

TabulatedFlow::Piece TabulatedFlow::cubic(const double stress, const double width,
                                          const double secant, const double left,
                                          const double right)
{
  return {stress, left, (3 * secant - 2 * left - right) / width,
          (left + right - 2 * secant) / (width * width), 0};
}

bool TabulatedFlow::fill(const Law &formula, const Point &from, const Point &to)
{
  const double width = to.strain - from.strain;
  const double rise  = to.stress - from.stress;
  // The cubic through both ends and two places between them, its slopes at the ends kept
  // within three times the secant's, where a cubic does not fall (their region [0, 3]).
  const std::size_t   parts = parts_of(from.strain, width);
  std::vector<double> stress(parts + 1);
  stress.front() = from.stress;
  stress.back()  = to.stress;
  for (std::size_t i = 1; i <= parts; ++i)
  {
    const double p =
        from.strain + width * static_cast<double>(i) / static_cast<double>(parts);
    if (i < parts)
      stress[i] = formula(p);
    std::string fault;
    if (!std::isfinite(stress[i]))
      fault = "is not a finite number at " + strain_text(p);
    else if (stress[i] < stress[i - 1] * (1 - rounding))
      fault = fmt::format("falls from {} to {} at {}", stress_text(stress[i - 1]),
                          stress_text(stress[i]), strain_text(p));
    if (fault.empty())
      continue;
    // Up to the place before it the formula is a flow curve.
    const Point sound{from.strain +
                          width * static_cast<double>(i - 1) / static_cast<double>(parts),
                      stress[i - 1]};
    if (i > 1 && !fill(formula, from, sound))
      return false;
    return stop(sound.strain, fault);
  }
  const double secant = std::max(0., rise) / width;
  const double left   = (-11 * stress[0] + 18 * stress[parts / 3] -
                       9 * stress[2 * parts / 3] + 2 * stress[parts]) /
                      (2 * width);
  const double right = (11 * stress[parts] - 18 * stress[2 * parts / 3] +
                        9 * stress[parts / 3] - 2 * stress[0]) /
                       (2 * width);
  const Piece piece = cubic(from.stress, width, secant, std::clamp(left, 0., 3 * secant),
                            std::clamp(right, 0., 3 * secant));
  bool        close = true;
  for (std::size_t i = 1; i < parts; ++i)
  {
    const double x = width * static_cast<double>(i) / static_cast<double>(parts);
    const double on_piece =
        piece.stress + x * (piece.slope + x * (piece.square + x * piece.cube));
    close = close && std::abs(on_piece - stress[i]) <= fill_share * tolerance * stress[i];
  }
  const bool short_piece = width <= jump_width * from.strain;
  if (!close && !short_piece)
  {
    const Point middle{(from.strain + to.strain) / 2, stress[parts / 2]};
    return fill(formula, from, middle) && fill(formula, middle, to);
  }
  if (!close && rise > jump_share * from.stress)
    return stop(from.strain,
                fmt::format("jumps from {} to {} at {}", stress_text(from.stress),
                            stress_text(to.stress), strain_text(from.strain)));
  add(from, to, piece);
  return true;
}

/// Slopes of two pieces that meet without a kink become one, their mean, which is nearer to
/// the formula's than either.
void TabulatedFlow::join()
{
  struct Slopes
  {
    double from = 0, to = 0;
  };
  const std::size_t   n = pieces_.size();
  std::vector<Slopes> slopes(n);
  std::vector<double> width(n), secant(n);
  for (std::size_t i = 0; i < n; ++i)
  {
    const Piece &piece  = pieces_[i];
    const bool   last   = i + 1 == n;
    width[i]            = (last ? end_.strain : starts_[i + 1]) - starts_[i];
    const double stress = last ? end_.stress : pieces_[i + 1].stress;
    secant[i]           = std::max(0., stress - piece.stress) / width[i];
    slopes[i]           = {piece.slope,
                           std::max(0., piece.slope + width[i] * (2 * piece.square +
                                                        3 * width[i] * piece.cube))};
  }
  // A sharp turn lies where two pieces meet, or within short ones: in the shortest.
  struct Turn
  {
    double at = 0, width = 0;
  };
  std::vector<Turn> turns;
  const auto        turned = [&](const Turn &turn)
  {
    if (turns.empty() || turn.at > turns.back().at * (1 + 10 * kink_width))
      turns.push_back(turn);
    else if (turn.width < turns.back().width)
      turns.back() = turn;
  };
  for (std::size_t i = 2; i < n; ++i)
  {
    double &before = slopes[i - 1].to, &after = slopes[i].from;
    if (const double turn = std::abs(before - after);
        turn > kink_turn * std::max(before, after))
    {
      if (turn * std::min(width[i - 1], width[i]) > 1000 * tolerance * pieces_[i].stress)
        turned({starts_[i], 0});
      continue;
    }
    if (width[i] < kink_width * starts_[i])
      turned({starts_[i] + width[i] / 2, width[i]});
    before = after = std::min((before + after) / 2, 3 * std::min(secant[i - 1], secant[i]));
  }
  double work = 0;
  for (std::size_t i = 0; i < n; ++i)
  {
    const double x   = width[i];
    pieces_[i]       = cubic(pieces_[i].stress, x, secant[i], slopes[i].from, slopes[i].to);
    pieces_[i].work  = work;
    const Piece &own = pieces_[i];
    work +=
        x * (own.stress + x * (own.slope / 2 + x * (own.square / 3 + x * own.cube / 4)));
  }
  end_.slope = slopes.back().to;
  for (const Turn &turn : turns)
    kinks_.push_back(turn.at);
}

std::size_t TabulatedFlow::piece_at(const double p) const
{
  return static_cast<std::size_t>(std::upper_bound(starts_.begin() + 1, starts_.end(), p) -
                                  starts_.begin()) -
         1;
}

FlowState TabulatedFlow::at(const double p) const
{
  if (p >= end_.strain)
    return {end_.stress + end_.slope * (p - end_.strain), end_.slope};
  const std::size_t i     = piece_at(p);
  const Piece      &piece = pieces_[i];
  const double      x     = p - starts_[i];
  return {piece.stress + x * (piece.slope + x * (piece.square + x * piece.cube)),
          std::max(0., piece.slope + x * (2 * piece.square + 3 * x * piece.cube))};
}

double TabulatedFlow::work(const double p) const
{
  const std::size_t i     = piece_at(std::min(p, end_.strain));
  const Piece      &piece = pieces_[i];
  const double      x     = std::min(p, end_.strain) - starts_[i];
  const double      within =
      x *
      (piece.stress + x * (piece.slope / 2 + x * (piece.square / 3 + x * piece.cube / 4)));
  const double beyond = std::max(0., p - end_.strain);
  return piece.work + within + beyond * (end_.stress + end_.slope * beyond / 2);
}

TabulatedFlow TabulatedFlow::scaled(const double factor) const
{
  TabulatedFlow made = *this;
  for (Piece &piece : made.pieces_)
  {
    piece.stress *= factor;
    piece.slope *= factor;
    piece.square *= factor;
    piece.cube *= factor;
    piece.work *= factor;
  }
  made.end_.stress *= factor;
  made.end_.slope *= factor;
  return made;
}
} // namespace throughbend
