#pragma once
// An open file of the system, closed on the way out, and how one is read piece by piece.

#include <functional>
#include <string>
#include <string_view>

namespace throughbend
{
class OpenFile
{
public:
  explicit OpenFile(int descriptor) : number_(descriptor) {} ///< -1: none
  ~OpenFile();
  OpenFile(OpenFile &&other) noexcept;
  OpenFile &operator=(OpenFile &&other) noexcept;

  int  number() const { return number_; }
  bool is_open() const { return number_ >= 0; }
  bool shut(); ///< whether the system took all that was written

private:
  int number_;
};

/// Hands the file over in pieces of at most the buffer's size until it ends or `take` says
/// no. The reason of the system where it cannot be read, else empty.
std::string read_pieces(const OpenFile &file, std::string &buffer,
                        const std::function<bool(std::string_view)> &take);
} // namespace throughbend
