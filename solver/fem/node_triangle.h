#pragma once
// The lower triangle of a symmetric matrix in blocks of a node by a node, in single
// precision: what the smoother of a two-level cycle reads again and again. A block needs
// one number for its place where its entries would need one each, so sweeps read a little
// more than half as much.

#include <memory>
#include <vector>

namespace throughbend
{
class NodeTriangle
{
public:
  /// One column of a lower triangle (or row of an upper one) after the other: the places of
  /// its entries, rising from the diagonal on.
  struct Columns
  {
    int           size;   ///< unknowns
    const int    *starts; ///< of each column's diagonal among places and values
    const int    *ends;   ///< behind its last entry
    const int    *places; ///< rows
    const double *values;
  };

  virtual ~NodeTriangle() = default;

  /// `add` = what is added to each entry of the diagonal in the sweeps, but is not in the
  /// matrix; empty for nothing. An unknown whose diagonal is 0 is left out of the sweeps.
  /// The places must be those of the first call.
  virtual void take(const Columns &columns, const std::vector<double> &add) = 0;

  // With A = L + D + L^T and S = D + what is added.
  /// y = (L + S)^-1 rest; `rest` becomes rest - A y, which is (S - D - L^T) y.
  virtual std::vector<double> forward(std::vector<double> &rest) const = 0;
  /// `rest` becomes rest - A x.
  virtual void subtract_product(const std::vector<double> &x,
                                std::vector<double>       &rest) const = 0;
  /// `rest` becomes (S + L^T)^-1 rest.
  virtual void backward(std::vector<double> &rest) const = 0;
};

/// `per_node` = unknowns of a node, next to each other: 2 or 3, else std::logic_error, as
/// where their number is no multiple of it.
std::unique_ptr<NodeTriangle> make_node_triangle(int per_node);
} // namespace throughbend
