#include "postprocess/app/today.h"

#include <array>
#include <ctime>

namespace throughbend
{
std::string today()
{
  const std::time_t now = std::time(nullptr);
  std::tm           here{};
  localtime_r(&now, &here);
  std::array<char, 16> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%d", &here);
  return text.data();
}
} // namespace throughbend
