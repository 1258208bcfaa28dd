#include "postprocess/app/help.h"

#include "inputs/text/plain_text.h"
#include "postprocess/app/verbs.h"
#include "postprocess/app/version.h"
#include "postprocess/words/caution.h"

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

std::string padded(const std::string &text, std::size_t width)
{
  return text + std::string(text.size() < width ? width - text.size() : 1, ' ');
}
} // namespace

std::string program_help()
{
  std::string text =
      wrapped("throughbend simulates a guided bend test: a plunger pushes a test coupon "
              "between two shoulders. It says whether the coupon goes through or stops, "
              "and why. It gives the force along the travel, the strain of the convex "
              "face and the springback.",
              "", columns) +
      "\n";
  for (const Verb &verb : verbs())
    text += "  " + padded("throughbend " + verb.name + " " + verb.operand, 34) +
            verb.summary + "\n";
  return text +
         "\nOptions and keys of each: throughbend help VERB, or throughbend VERB --help\n"
         "Version: throughbend --version\n"
         "To begin:\n"
         "  throughbend starter > my-case.ini\n"
         "  throughbend push my-case.ini\n"
         "  throughbend push my-case.ini --coupon.thickness \"3/8 in\" --into "
         "runs/thinner\n"
         "\nExit codes\n" +
         exit_codes_text() + "\n" + caution_text();
}

std::string version_line(const std::string &program)
{
  const std::string revision = git_revision();
  return program + " " + program_version() +
         (revision.empty() ? "" : " (" + revision + ")") + "\n";
}
} // namespace throughbend
