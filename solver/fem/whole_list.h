#pragma once
// Lists with equally many items for each cell, or face, of the mesh. A rank holds those of
// its own cells; together the ranks hold one whole list in the order of the mesh, which is
// the same for any number of ranks.

#include <deal.II/base/mpi.h>

#include <algorithm>
#include <cstddef>
#include <type_traits>
#include <vector>

namespace throughbend
{
/// The whole list, on the first rank; empty on the others, and all ranks must call it.
/// `numbers`: of the cells that `own` is of, among `n_all` of all ranks.
template <class Item>
std::vector<Item> whole_list(const std::vector<Item>     &own,
                             const std::vector<unsigned> &numbers, const unsigned n_all,
                             MPI_Comm communicator)
{
  static_assert(std::is_trivially_copyable_v<Item>, "items travel as bytes");
  const int  mine[2] = {static_cast<int>(numbers.size()), static_cast<int>(own.size())};
  const auto n_ranks = dealii::Utilities::MPI::n_mpi_processes(communicator);
  const bool first   = dealii::Utilities::MPI::this_mpi_process(communicator) == 0;
  std::vector<int> sizes(first ? 2 * n_ranks : 0);
  MPI_Gather(mine, 2, MPI_INT, sizes.data(), 2, MPI_INT, 0, communicator);

  std::vector<int> cells, items, cells_before, items_before;
  int              n_cells = 0, n_items = 0;
  for (std::size_t rank = 0; 2 * rank < sizes.size(); ++rank)
  {
    cells_before.push_back(n_cells);
    items_before.push_back(n_items);
    n_cells += cells.emplace_back(sizes[2 * rank]);
    n_items += items.emplace_back(sizes[2 * rank + 1]);
  }
  std::vector<unsigned> whose(static_cast<std::size_t>(n_cells));
  std::vector<Item>     received(static_cast<std::size_t>(n_items));
  MPI_Gatherv(numbers.data(), mine[0], MPI_UNSIGNED, whose.data(), cells.data(),
              cells_before.data(), MPI_UNSIGNED, 0, communicator);
  MPI_Datatype item = MPI_DATATYPE_NULL;
  MPI_Type_contiguous(static_cast<int>(sizeof(Item)), MPI_BYTE, &item);
  MPI_Type_commit(&item);
  MPI_Gatherv(own.data(), mine[1], item, received.data(), items.data(), items_before.data(),
              item, 0, communicator);
  MPI_Type_free(&item);

  std::vector<Item> whole(received.size());
  const std::size_t each = whole.size() / std::max(1u, n_all);
  for (std::size_t i = 0; i < whose.size(); ++i)
    std::copy_n(received.begin() + static_cast<std::ptrdiff_t>(i * each), each,
                whole.begin() + static_cast<std::ptrdiff_t>(whose[i] * each));
  return whole;
}

/// What `numbers` say of the whole list.
template <class Item>
std::vector<Item> own_share(const std::vector<Item>     &whole,
                            const std::vector<unsigned> &numbers, const unsigned n_all)
{
  const std::size_t each = whole.size() / std::max(1u, n_all);
  std::vector<Item> own;
  own.reserve(numbers.size() * each);
  for (const unsigned number : numbers)
    own.insert(own.end(), whole.begin() + static_cast<std::ptrdiff_t>(number * each),
               whole.begin() + static_cast<std::ptrdiff_t>((number + 1) * each));
  return own;
}
} // namespace throughbend
