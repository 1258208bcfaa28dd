#include "postprocess/app/push_verb.h"

#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "postprocess/app/companion.h"
#include "postprocess/app/help.h"
#include "postprocess/app/push_order.h"

#include <iostream>

namespace throughbend
{
namespace
{
ExitCode carry_out(const std::vector<std::string> &words)
{
  const PushOrder order = push_order(verb_arguments(push_verb(), words));
  if (order.task == Task::help)
    return show(verb_help(push_verb()));
  const CaseReading reading = read_case(order.case_file, order.overrides);
  if (!reading.errors.empty())
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  if (order.task == Task::print_case)
  {
    for (const std::string &remark : reading.remarks)
      std::cerr << "note: " << shown_text(remark) << '\n';
    return show(effective_text(*reading.value) + spread_text(reading.spreads));
  }
  become("throughbend-push", words, CompanionKind::passes);
}
} // namespace

Verb push_verb()
{
  return {"push",
          "CASE",
          "simulate one pass of one coupon; results in a folder",
          "Simulates one pass and says whether the coupon goes through or stops, where "
          "and why. The run's folder holds the force along the travel, the strains of "
          "both faces, fields for ParaView and a summary for scripts. On several ranks: "
          "mpirun -np N throughbend push CASE.",
          push_options(),
          CaseKeys::taken,
          1,
          carry_out};
}
} // namespace throughbend
