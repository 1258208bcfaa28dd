#include "solver/fem/node_triangle.h"

#include <algorithm>
#include <cstddef>
#include <stdexcept>

namespace throughbend
{
namespace
{
template <int per_node>
class Blocks : public NodeTriangle
{
public:
  void take(const Columns &columns, const std::vector<double> &add) override;

  std::vector<double> forward(std::vector<double> &rest) const override;
  void                subtract_product(const std::vector<double> &x,
                                       std::vector<double>       &rest) const override;
  void                backward(std::vector<double> &rest) const override;

private:
  static constexpr int block = per_node * per_node;
  int                  size() const { return static_cast<int>(inverse_.size()); }
  void                 find_places(const Columns &columns);

  /// Of a block times x. By itself, so that what a node sums up waits for one addition a
  /// block.
  static double column(const float *entries, const int b, const double *x)
  {
    double sum = 0;
    for (int a = 0; a < per_node; ++a)
      sum += entries[b * per_node + a] * x[a];
    return sum;
  }

  std::vector<int>   starts_, nodes_; ///< of the blocks below the diagonal one of each node
  std::vector<float> blocks_;         ///< each by columns
  std::vector<float> diagonal_;       ///< blocks; of them the lower triangles are read
  std::vector<float> inverse_, added_; ///< 1 / S; S - D
};

template <int per_node>
void Blocks<per_node>::find_places(const Columns &columns)
{
  if (columns.size % per_node != 0)
    throw std::logic_error("unknowns do not come node by node");
  starts_.assign(1, 0);
  std::vector<int> below;
  for (int j = 0; j < columns.size; j += per_node)
  {
    below.clear();
    for (int b = 0; b < per_node; ++b)
      for (int k = columns.starts[j + b]; k < columns.ends[j + b]; ++k)
        if (const int node = columns.places[k] / per_node; node > j / per_node)
          below.push_back(node);
    std::sort(below.begin(), below.end());
    below.erase(std::unique(below.begin(), below.end()), below.end());
    nodes_.insert(nodes_.end(), below.begin(), below.end());
    starts_.push_back(static_cast<int>(nodes_.size()));
  }
  const auto unknowns = static_cast<std::size_t>(columns.size);
  blocks_.resize(nodes_.size() * block);
  diagonal_.resize(unknowns * per_node);
  inverse_.resize(unknowns);
  added_.assign(unknowns, 0.f);
}

template <int per_node>
void Blocks<per_node>::take(const Columns &columns, const std::vector<double> &add)
{
  if (starts_.empty())
    find_places(columns);
  std::fill(blocks_.begin(), blocks_.end(), 0.f);
  std::fill(diagonal_.begin(), diagonal_.end(), 0.f);
  for (int j = 0; j < columns.size; ++j)
  {
    const int node = j / per_node, b = j % per_node;
    int       at = starts_[node];
    for (int k = columns.starts[j]; k < columns.ends[j]; ++k)
    {
      const int   place = columns.places[k], below = place / per_node, a = place % per_node;
      const float value = static_cast<float>(columns.values[k]);
      if (below == node)
      {
        diagonal_[node * block + b * per_node + a] = value;
        continue;
      }
      while (nodes_[at] != below)
        ++at;
      blocks_[static_cast<std::size_t>(at) * block + b * per_node + a] = value;
    }
    const double entry = columns.values[columns.starts[j]];
    const double more  = add.empty() ? 0. : add[j];
    inverse_[j]        = entry == 0 ? 0.f : static_cast<float>(1 / (entry + more));
    added_[j]          = static_cast<float>(more);
  }
}

template <int per_node>
std::vector<double> Blocks<per_node>::forward(std::vector<double> &rest) const
{
  std::vector<double> y(rest.size());
  const int           n = size();
  for (int j = 0; j < n; j += per_node)
  {
    const int          node = j / per_node;
    const float *const own  = &diagonal_[static_cast<std::size_t>(node) * block];
    double             here[per_node];
    for (int b = 0; b < per_node; ++b)
    {
      double left = rest[j + b];
      for (int c = 0; c < b; ++c)
        left -= own[c * per_node + b] * here[c];
      here[b]  = left * inverse_[j + b];
      y[j + b] = here[b];
    }
    for (int k = starts_[node]; k < starts_[node + 1]; ++k)
    {
      const float *const entries = &blocks_[static_cast<std::size_t>(k) * block];
      double *const      there   = &rest[static_cast<std::size_t>(nodes_[k]) * per_node];
      for (int b = 0; b < per_node; ++b)
        for (int a = 0; a < per_node; ++a)
          there[a] -= entries[b * per_node + a] * here[b];
    }
  }
  for (int j = 0; j < n; j += per_node)
  {
    const int          node = j / per_node;
    const float *const own  = &diagonal_[static_cast<std::size_t>(node) * block];
    double             sum[per_node];
    for (int b = 0; b < per_node; ++b)
    {
      sum[b] = -added_[j + b] * y[j + b];
      for (int a = b + 1; a < per_node; ++a)
        sum[b] += own[b * per_node + a] * y[j + a];
    }
    for (int k = starts_[node]; k < starts_[node + 1]; ++k)
    {
      const float *const  entries = &blocks_[static_cast<std::size_t>(k) * block];
      const double *const there   = &y[static_cast<std::size_t>(nodes_[k]) * per_node];
      for (int b = 0; b < per_node; ++b)
        sum[b] += column(entries, b, there);
    }
    for (int b = 0; b < per_node; ++b)
      rest[j + b] = -sum[b];
  }
  return y;
}

template <int per_node>
void Blocks<per_node>::subtract_product(const std::vector<double> &x,
                                        std::vector<double>       &rest) const
{
  const int n = size();
  for (int j = 0; j < n; j += per_node)
  {
    const int          node = j / per_node;
    const float *const own  = &diagonal_[static_cast<std::size_t>(node) * block];
    double             here[per_node], sum[per_node];
    for (int b = 0; b < per_node; ++b)
      here[b] = x[j + b];
    for (int b = 0; b < per_node; ++b)
    {
      sum[b] = 0;
      for (int a = 0; a < per_node; ++a)
        sum[b] += own[std::min(a, b) * per_node + std::max(a, b)] * here[a];
    }
    for (int k = starts_[node]; k < starts_[node + 1]; ++k)
    {
      const float *const  entries = &blocks_[static_cast<std::size_t>(k) * block];
      const std::size_t   at      = static_cast<std::size_t>(nodes_[k]) * per_node;
      const double *const there   = &x[at];
      double *const       left    = &rest[at];
      for (int b = 0; b < per_node; ++b)
        sum[b] += column(entries, b, there);
      for (int b = 0; b < per_node; ++b)
        for (int a = 0; a < per_node; ++a)
          left[a] -= entries[b * per_node + a] * here[b];
    }
    for (int b = 0; b < per_node; ++b)
      rest[j + b] -= sum[b];
  }
}

template <int per_node>
void Blocks<per_node>::backward(std::vector<double> &rest) const
{
  for (int j = size() - per_node; j >= 0; j -= per_node)
  {
    const int          node          = j / per_node;
    const float *const own           = &diagonal_[static_cast<std::size_t>(node) * block];
    double             sum[per_node] = {};
    for (int k = starts_[node]; k < starts_[node + 1]; ++k)
    {
      const float *const  entries = &blocks_[static_cast<std::size_t>(k) * block];
      const double *const there   = &rest[static_cast<std::size_t>(nodes_[k]) * per_node];
      for (int b = 0; b < per_node; ++b)
        sum[b] += column(entries, b, there);
    }
    for (int b = per_node - 1; b >= 0; --b)
    {
      double left = rest[j + b] - sum[b];
      for (int a = b + 1; a < per_node; ++a)
        left -= own[b * per_node + a] * rest[j + a];
      rest[j + b] = left * inverse_[j + b];
    }
  }
}

} // namespace

std::unique_ptr<NodeTriangle> make_node_triangle(const int per_node)
{
  if (per_node == 2)
    return std::make_unique<Blocks<2>>();
  if (per_node == 3)
    return std::make_unique<Blocks<3>>();
  throw std::logic_error("a node has two or three unknowns");
}
} // namespace throughbend
