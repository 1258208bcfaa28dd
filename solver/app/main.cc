// The program's door: verbs, bad input before anything starts, and the one place that knows
// MPI_COMM_WORLD.

#include "inputs/case_reader.h"
#include "inputs/case_text.h"
#include "inputs/input_error.h"
#include "inputs/starter_case.h"
#include "solver/app/help.h"
#include "solver/app/origin.h"
#include "solver/app/pass_run.h"

#include <deal.II/base/mpi.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>

namespace throughbend
{
namespace
{
/// Before MPI is up: whether the launcher calls this the first process. Several must not
/// all print the same complaint.
bool speaks()
{
  for (const char *name : {"OMPI_COMM_WORLD_RANK", "PMI_RANK"})
    if (const char *rank = std::getenv(name); rank != nullptr)
      return std::string(rank) == "0";
  return true;
}

ExitCode show(const std::string &text)
{
  if (speaks())
    std::cout << text << std::flush;
  return ExitCode::finding;
}

ExitCode push(const std::vector<std::string> &words, char *program)
{
  const PushOrder order = push_order(words);
  if (order.task == Task::help)
    return show(program_help());

  const CaseReading reading = read_case(order.case_file, order.overrides);
  if (!reading.errors.empty())
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  if (speaks() && order.speech == Speech::full)
    for (const std::string &remark : reading.remarks)
      std::cerr << "note: " << remark << '\n';
  if (order.task == Task::print_case)
    return show(effective_text(*reading.value));

  // The libraries below MPI must not take our words for theirs.
  int                                            n_own        = 1;
  char                                          *own[]        = {program, nullptr};
  char                                         **words_of_mpi = own;
  const dealii::Utilities::MPI::MPI_InitFinalize mpi(n_own, words_of_mpi, 1);
  return reading.value->mesh.dimension == 2 ? run_pass<2>(order, reading, MPI_COMM_WORLD)
                                            : run_pass<3>(order, reading, MPI_COMM_WORLD);
}

ExitCode carry_out(const std::vector<std::string> &words, char *program)
{
  const std::string verb = words.empty() ? "--help" : words.front();
  if (verb == "push")
    return push({words.begin() + 1, words.end()}, program);
  const std::string known[] = {"starter", "--help", "--version"};
  if (std::find(std::begin(known), std::end(known), verb) == std::end(known))
    throw InputError("there is no verb '" + verb +
                     "'. Verbs are push, starter, --help and --version.");
  if (words.size() > 1)
    throw InputError(verb + " takes nothing more. A run is: throughbend push CASE ...");
  if (verb == "starter")
    return show(starter_text());
  if (verb == "--help")
    return show(program_help());
  return show("throughbend " + program_version() +
              (git_revision().empty() ? "" : " (" + git_revision() + ")") + "\n");
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  try
  {
    return static_cast<int>(
        carry_out({argv + std::min(argc, 1), argv + argc}, argc > 0 ? argv[0] : nullptr));
  }
  catch (const InputError &error)
  {
    if (speaks())
      std::cerr << "throughbend: " << error.what() << '\n';
    return static_cast<int>(ExitCode::bad_input);
  }
  catch (const std::exception &error)
  {
    std::cerr << "throughbend: " << error.what() << '\n';
    return static_cast<int>(ExitCode::failed);
  }
}
