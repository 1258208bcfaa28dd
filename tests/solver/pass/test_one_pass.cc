// A pass as a function: the same record whoever calls it, how often and on how many
// threads.

#include "inputs/text/input_error.h"
#include "solver/pass/one_pass.h"
#include "solver/pass/sample_fields.h"
#include "solver/pass/state_archive.h"
#include "tests/solver/pass/resume_cases.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <thread>

using namespace throughbend;

namespace
{
std::string bytes_of(const PassResult &result)
{
  StateWriter writer;
  writer(result.samples, result.beyond);
  return writer.bytes() + to_text(result.finding.outcome) + result.finding.evidence;
}

std::vector<Case> two_cases()
{
  const std::vector<ResumeCase> cases = resume_cases(CaseSize::small);
  return {cases[1].c, cases[3].c}; // over capacity, and off-centre with a backstress
}
} // namespace

TEST_CASE("Passes on two threads at once give the records of passes one by one",
          "[one-pass]")
{
  std::vector<std::string> alone, together(2);
  for (const Case &c : two_cases())
    alone.push_back(bytes_of(one_pass(c)));
  CHECK(alone[0] != alone[1]);

  const std::vector<Case>  cases = two_cases();
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < 2; ++i)
    threads.emplace_back([&, i] { together[i] = bytes_of(one_pass(cases[i])); });
  for (std::thread &thread : threads)
    thread.join();
  CHECK(together[0] == alone[0]);
  CHECK(together[1] == alone[1]);
}

TEST_CASE("The ram does not feel how long the legs are", "[one-pass]")
{
  // They have no weight, and lie on the shoulders with what is beyond them in the air.
  const auto force = [](double length)
  {
    Case c          = reference_case();
    c.mesh.level    = MeshLevel::quick;
    c.coupon.length = length;
    c.ram.stroke    = 8;
    const auto pass = one_pass(c);
    REQUIRE(pass.finding.outcome == Outcome::stroke_out);
    const auto last =
        std::find_if(pass.samples.rbegin(), pass.samples.rend(),
                     [](const PassSample &s) { return s.kind == StepKind::push; });
    return last->ram_force;
  };
  CHECK(force(3000) == Approx(force(160)).epsilon(0.002));
}

TEST_CASE("A coupon that snaps away goes by relaxation, not within a push", "[one-pass]")
{
  // Drawn: a thick coupon, 3 mm off centre, that barely reaches the shoulders' rounds.
  const PassResult pass = one_pass(
      "[coupon]\nlength = 143.8511626653106 mm\nwidth = 39.94676127561836 mm\n"
      "thickness = 14.161699304996006 mm\noffset = 3.1508889969228147 mm\n"
      "[material]\nyoung = 207 GPa\nlaw = voce\nyield = 288.83614622545866 MPa\n"
      "hardening = 32.63149162210672 MPa\nsaturation = 190.09193401896508 MPa\n"
      "rate = 5.696901155196143\n"
      "[plunger]\nwidth = 56.97025067109391 mm\n"
      "[shoulders]\nradius = 37.877733686623486 mm\nopening = 115.7497764141428 mm\n"
      "depth = 64.76234799740787 mm\nbottom_radius = 4.248509791498802 mm\n"
      "[friction]\nplunger = 0.2191026162610851\nshoulders = 0.23007415790021343\n"
      "[ram]\ncapacity = 39.89689824483618 kN\nstroke = 193.6581800011571 mm\n",
      {});
  CHECK(pass.finding.outcome == Outcome::dropped);
  CHECK(std::any_of(pass.samples.begin(), pass.samples.end(),
                    [](const PassSample &s) { return s.kind == StepKind::relax; }));
}

TEST_CASE("A pass from text says all that is wrong with the text", "[one-pass]")
{
  CHECK_THROWS_AS(one_pass("[coupon]\nlength = 3\n", {}), InputError);
  CHECK_THROWS_WITH(one_pass("[coupon]\nlength = 3\n", {"--ram.stroke", "x"}),
                    Catch::Contains("coupon.length") && Catch::Contains("ram.stroke") &&
                        Catch::Contains("material.law"));
}
