// However much is wrong with a case, the list of it is short and comes at once.

#include "inputs/keys/case_reader.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>

using namespace throughbend;

TEST_CASE("of many errors twenty are listed and the rest counted", "[unit][case]")
{
  std::string text = "[coupon]\n";
  for (int i = 0; i < 50000; ++i)
    text += "key" + std::to_string(i) + " = 1\n";
  const auto        began   = std::chrono::steady_clock::now();
  const CaseReading reading = read_case_text(text, "many.ini", {});
  const std::string list    = error_list(reading.errors);
  const double      seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  CHECK(reading.errors.size() >= 50000);
  CHECK(std::count(list.begin(), list.end(), '\n') == 21);
  CHECK(list.find("many.ini:2: coupon.key0") == 0);
  const std::string more = std::to_string(reading.errors.size() - 20) + " more";
  CHECK(list.find(more) != std::string::npos);
  CHECK(list.size() < 10000);
  CHECK(seconds < 5); // some 0.1 s on a quiet machine; a look at every key took 17 s
}

TEST_CASE("a short list is whole", "[unit][case]")
{
  const CaseReading reading =
      read_case_text("[coupon]\nthicknes = 10 mm\n", "short.ini", {});
  const std::string list = error_list(reading.errors);
  CHECK(static_cast<std::size_t>(std::count(list.begin(), list.end(), '\n')) ==
        reading.errors.size());
  CHECK(list.find("did you mean 'coupon.thickness'?") != std::string::npos);
  CHECK(list.find(" more") == std::string::npos);
}
