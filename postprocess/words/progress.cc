#include "postprocess/words/progress.h"

#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ostream>
#include <unistd.h>

namespace throughbend
{
namespace
{
constexpr double least_pause = 0.1; // [s] between two writings

} // namespace

std::string duration_text(const double seconds)
{
  const auto whole = static_cast<long long>(std::ceil(seconds));
  if (whole < 60)
    return fmt::format("{} s", whole);
  if (whole < 3600)
    return fmt::format("{} min {:02} s", whole / 60, whole % 60);
  return fmt::format("{} h {:02} min", whole / 3600, whole / 60 % 60);
}

Audience audience_at(const int file_descriptor)
{
  return isatty(file_descriptor) == 1 ? Audience::terminal : Audience::nobody;
}

double Progress::steady_seconds()
{
  using namespace std::chrono;
  return duration<double>(steady_clock::now().time_since_epoch()).count();
}

Progress::Progress(std::ostream &out, const Audience audience, const double expected_travel,
                   const UnitSystem units, Clock clock)
    : out_(out), audience_(audience), expected_travel_(expected_travel), units_(units),
      clock_(std::move(clock)), started_(clock_())
{
}

Progress::~Progress()
{
  finish();
}

void Progress::show(const PassSample &sample)
{
  if (audience_ == Audience::nobody)
    return;
  last_    = sample;
  pending_ = true;
  if (width_ == 0 || clock_() - shown_at_ >= least_pause)
    write(sample);
}

void Progress::finish()
{
  if (pending_)
    write(last_);
  if (width_ > 0)
    out_ << '\n' << std::flush;
  width_ = 0;
}

void Progress::write(const PassSample &sample)
{
  std::string       text  = line(sample);
  const std::size_t width = text.size();
  // Blanks wipe what a longer line left behind; every terminal knows them.
  text.resize(std::max(width, width_), ' ');
  out_ << '\r' << text << std::flush;
  width_    = width;
  shown_at_ = clock_();
  pending_  = false;
}

std::string Progress::line(const PassSample &sample) const
{
  std::string text =
      fmt::format("travel {}  force {}  step {}", length_text(sample.travel, units_),
                  force_text(sample.ram_force, units_), sample.step);
  if (sample.kind == StepKind::release)
    return text + "  releasing";
  // Below a twentieth of the way the guess would jump about too much to be of use.
  const double made = sample.travel - from_;
  if (made > 0.05 * expected_travel_ && sample.travel < expected_travel_)
    text +=
        "  about " +
        duration_text((clock_() - started_) * (expected_travel_ - sample.travel) / made) +
        " left";
  return text;
}
} // namespace throughbend
