#pragma once
// A flow curve of any formula, tabulated once: cubic pieces that never fall, close to the
// formula and cheap to look up. Slope and work are those of the pieces, so that an update
// with them has its exact tangent. Knows no notation of formulas.

#include <functional>
#include <limits>
#include <string>
#include <vector>

namespace throughbend
{
/// Flow stress and its slope at one strain, got together because they share the exp or pow.
struct FlowState
{
  double stress = 0; ///< s [MPa]
  double slope  = 0; ///< ds/dp [MPa], never negative
};

/// Monotone cubic pieces: Fritsch & Carlson (1980) SIAM J. Numer. Anal. 17, 238. Pieces are
/// halved until the cubic agrees with the formula at places all along each of them.
///
/// Up to `first_strain` the curve is a straight line, as Ludwik's is, because a power of p
/// has no slope at 0. Places are looked at every 0.0008 of strain up to p = 1 and more
/// closely near 0; what is narrower than that may be missed.
class TabulatedFlow
{
public:
  static constexpr double tolerance    = 1e-7; ///< |cubic - formula| / stress
  static constexpr double first_strain = 1e-9;
  static constexpr double last_strain  = 10; ///< the last slope goes on beyond it

  /// Of a formula that gives the stress [MPa] at p. What cannot be a flow curve is said by
  /// fault(); the curve then ends there.
  explicit TabulatedFlow(const std::function<double(double)> &formula);

  FlowState     at(double p) const;          ///< p >= 0
  double        work(double p) const;        ///< integral of s from 0 to p [N mm/mm^3]
  TabulatedFlow scaled(double factor) const; ///< every stress times factor [-] > 0

  /// What is wrong at fault_strain() with the formula; empty if it is a flow curve up to
  /// last_strain.
  const std::string &fault() const { return fault_; }
  /// Up to here it is one [-]; infinite without a fault.
  double fault_strain() const { return fault_strain_; }
  /// Strains at which the slope changes at once.
  const std::vector<double> &kinks() const { return kinks_; }
  std::size_t                pieces() const { return pieces_.size(); }

private:
  /// s = stress + slope x + square x^2 + cube x^3, x = p - where the piece begins.
  struct Piece
  {
    double stress = 0, slope = 0, square = 0, cube = 0;
    double work = 0; ///< from p = 0 to where the piece begins
  };
  struct Point
  {
    double strain = 0, stress = 0;
  };
  struct End
  {
    double strain = 0, stress = 0, slope = 0;
  };

  /// Hermite's, from slopes at both ends.
  static Piece cubic(double stress, double width, double secant, double left, double right);

  std::size_t piece_at(double p) const;
  bool        fill(const std::function<double(double)> &formula, const Point &from,
                   const Point &to);
  void        add(const Point &from, const Point &to, const Piece &piece);
  bool        stop(double strain, const std::string &fault);
  void        join();

  std::vector<double> starts_; ///< of the pieces [-]
  std::vector<Piece>  pieces_;
  End                 end_;
  std::string         fault_;
  double              fault_strain_ = std::numeric_limits<double>::infinity();
  std::vector<double> kinks_;
};
} // namespace throughbend
