#pragma once
// Four numbers worked on at once, and the few functions of them that the cell kernels need,
// without branches. Written in the compiler's vector types, so that the same source becomes
// code for whatever registers the calling function may use; therefore all is inlined.
// Results of a lane do not depend on what the other lanes hold.

namespace throughbend
{
#define THROUGHBEND_INLINED [[gnu::always_inline]] inline

inline constexpr int n_lanes = 4;

// Without wide registers the compiler would align them to 16 bytes, with them it counts
// on 32.
using Lanes     = double __attribute__((vector_size(32), aligned(32)));
using LaneBits  = unsigned long long __attribute__((vector_size(32), aligned(32)));
using LaneMask  = long long __attribute__((vector_size(32), aligned(32))); ///< all or none
using LaneArray = double[n_lanes];

THROUGHBEND_INLINED Lanes all_lanes(double x)
{
  return Lanes{x, x, x, x};
}

/// Whether the mask holds for any lane.
THROUGHBEND_INLINED bool any(LaneMask mask)
{
  return (mask[0] | mask[1] | mask[2] | mask[3]) != 0;
}

THROUGHBEND_INLINED Lanes magnitude(Lanes x)
{
  return (Lanes)((LaneBits)x & 0x7fffffffffffffffull);
}

/// The size of `size`, with the sign of `sign`.
THROUGHBEND_INLINED Lanes with_sign(Lanes size, Lanes sign)
{
  return (Lanes)(((LaneBits)size & 0x7fffffffffffffffull) |
                 ((LaneBits)sign & 0x8000000000000000ull));
}

THROUGHBEND_INLINED Lanes square_root(Lanes x)
{
  return Lanes{__builtin_sqrt(x[0]), __builtin_sqrt(x[1]), __builtin_sqrt(x[2]),
               __builtin_sqrt(x[3])};
}

/// Of any x; beyond the range of double an endpoint of it. x = k ln 2 + r, and Taylor's
/// series in |r| <= ln 2 / 2, whose first omitted term is below 1e-17.
THROUGHBEND_INLINED Lanes exponential(Lanes x)
{
  constexpr double per_ln2 = 1.4426950408889634074, whole = 6755399441055744.; // 1.5 2^52
  constexpr double ln2_high = 0x1.62e42fefa38p-1, ln2_low = 0x1.ef35793c7673p-45;
  const Lanes      low = all_lanes(-708.), high = all_lanes(709.);
  x                   = x < low ? low : x;
  x                   = x > high ? high : x;
  const Lanes shifted = x * per_ln2 + whole; // its last bits are k
  const Lanes k       = shifted - whole;
  const Lanes r       = (x - k * ln2_high) - k * ln2_low;
  Lanes       sum     = all_lanes(1. / 6227020800.);
  sum                 = sum * r + 1. / 479001600.;
  sum                 = sum * r + 1. / 39916800.;
  sum                 = sum * r + 1. / 3628800.;
  sum                 = sum * r + 1. / 362880.;
  sum                 = sum * r + 1. / 40320.;
  sum                 = sum * r + 1. / 5040.;
  sum                 = sum * r + 1. / 720.;
  sum                 = sum * r + 1. / 120.;
  sum                 = sum * r + 1. / 24.;
  sum                 = sum * r + 1. / 6.;
  sum                 = sum * r + 0.5;
  sum                 = sum * r * r + r + 1.;
  return (Lanes)((LaneBits)sum + ((LaneBits)shifted << 52));
}

/// atanh(s) / s = 1 + z/3 + z^2/5 + ... of z = s^2 <= 0.0295, less the 1: to 1e-17.
THROUGHBEND_INLINED Lanes atanh_series(Lanes z)
{
  Lanes sum = all_lanes(1. / 21);
  sum       = sum * z + 1. / 19;
  sum       = sum * z + 1. / 17;
  sum       = sum * z + 1. / 15;
  sum       = sum * z + 1. / 13;
  sum       = sum * z + 1. / 11;
  sum       = sum * z + 1. / 9;
  sum       = sum * z + 1. / 7;
  sum       = sum * z + 1. / 5;
  sum       = sum * z + 1. / 3;
  return sum * z;
}

/// Of normal x > 0; of others some number. x = 2^k (1 + f) with 1 + f between sqrt(1/2) and
/// sqrt(2), and ln(1 + f) = 2 atanh(s) of s = f / (2 + f).
THROUGHBEND_INLINED Lanes logarithm(Lanes x)
{
  constexpr unsigned long long half_root = 0x3fe6a09e667f3bcdull; // sqrt(1/2)
  constexpr unsigned long long one       = 0x3ff0000000000000ull;
  constexpr double             ln2       = 0.693147180559945309417;
  // Biased exponent after the mantissa was brought into that range.
  const LaneBits biased = ((LaneBits)x + (one - half_root)) >> 52;
  const Lanes    m      = (Lanes)((LaneBits)x - (biased << 52) + one);
  const Lanes    k = (Lanes)(biased | 0x4330000000000000ull) - (4503599627370496. + 1023.);
  const Lanes    f = m - 1.;
  const Lanes    s = f / (f + 2.);
  return k * ln2 + (f - s * (f - 2. * atanh_series(s * s)));
}

/// (ln a - ln b) / (a - b) of a, b > 0 whose logarithms are known, also when a = b.
THROUGHBEND_INLINED Lanes log_difference_quotient(Lanes a, Lanes b, Lanes log_a,
                                                  Lanes log_b)
{
  const Lanes difference = a - b, sum = a + b;
  const Lanes s     = difference / sum;
  const Lanes close = 2. / sum * (1. + atanh_series(s * s));
  // Where the series is of no use the difference is far from 0.
  return magnitude(s) < 0.17 ? close : (log_a - log_b) / difference;
}
} // namespace throughbend
