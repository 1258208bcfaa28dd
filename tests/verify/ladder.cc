#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>

namespace throughbend
{
namespace
{
std::string short_number(double value)
{
  char text[32];
  std::snprintf(text, sizeof text, "%.5g", value);
  return text;
}

const char *name_of(Tolerance::Measure measure)
{
  switch (measure)
  {
  case Tolerance::Measure::relative:
    return "relative";
  case Tolerance::Measure::absolute:
    return "absolute";
  case Tolerance::Measure::at_most:
    return "at_most";
  case Tolerance::Measure::at_least:
    break;
  }
  return "at_least";
}
} // namespace

Rung::Rung(std::string name, std::string title, std::string source, Length length)
    : name_(std::move(name)), exceptions_(std::uncaught_exceptions())
{
  lines_.push_back("title\t" + title);
  lines_.push_back("source\t" + source);
  lines_.push_back(std::string("length\t") +
                   (length == Length::usual ? "verify" : "verify-long"));
}

void Rung::row(const std::string &quantity, double published, double ours,
               Tolerance tolerance)
{
  lines_.push_back("row\t" + quantity + '\t' + short_number(published) + '\t' +
                   short_number(ours) + '\t' + name_of(tolerance.measure) + '\t' +
                   short_number(tolerance.size));
  INFO(name_ << ": " << quantity << ": published " << published << ", ours " << ours
             << ", tolerance " << name_of(tolerance.measure) << ' ' << tolerance.size);
  CHECK(tolerance.allows(ours, published));
}

void Rung::note(const std::string &sentence)
{
  lines_.push_back("note\t" + sentence);
}

Rung::~Rung()
{
  if (std::uncaught_exceptions() > exceptions_)
    return;
  std::error_code fault;
  std::filesystem::create_directories("verify_rows", fault);
  std::ofstream out("verify_rows/" + name_ + ".txt");
  for (const std::string &line : lines_)
    out << line << '\n';
}
} // namespace throughbend
