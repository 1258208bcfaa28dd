#pragma once
// Spoils texts as a broken disk, a careless editor or an ill-meaning stranger would: bytes
// and pieces changed, numbers replaced by what no run writes, nesting without end, and the
// numbers within packed arrays of shapes. The same seed spoils in the same way.

#include <cstdint>
#include <random>
#include <string>

namespace throughbend
{
class Spoiler
{
public:
  explicit Spoiler(const std::uint64_t seed) : random_(seed) {}

  /// With one to four faults.
  std::string spoiled(std::string text);

  /// A number from 0 to below.
  std::size_t below(std::size_t limit);

private:
  void        spoil_bytes(std::string &text);
  void        spoil_piece(std::string &text);
  void        spoil_number(std::string &text);
  void        spoil_nesting(std::string &text);
  void        spoil_array(std::string &text);
  std::string strange();

  std::mt19937_64 random_;
};
} // namespace throughbend
