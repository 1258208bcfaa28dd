#include "solver/app/help.h"

#include "inputs/case_help.h"
#include "solver/app/push_order.h"
#include "solver/output/finding_text.h"

namespace throughbend
{
std::string program_help()
{
  return "throughbend pushes a test coupon through a bending fixture, on the computer: "
         "does "
         "it go\nthrough or stop, and why; force along the travel, strain of the convex "
         "face, springback.\n\n"
         "  throughbend starter > my-case.ini     a commented case to begin from\n"
         "  throughbend push my-case.ini          one pass; results in runs/my-case\n"
         "  throughbend push my-case.ini --coupon.thickness \"3/8 in\" --into "
         "runs/thinner\n"
         "  mpirun -np 2 throughbend push ...     the same on two ranks\n"
         "  throughbend --version\n\n"
         "push CASE [options] [--section.name \"value\" ...]\n" +
         push_options_text() +
         "\nExit codes\n"
         "  0  a finding was made, whatever it is      3  undecided: the computation gave "
         "up\n"
         "  1  not the finding that --expect names     4  interrupted; the record is kept\n"
         "  2  bad input; nothing was written          5  an error of machine or "
         "program\n\n" +
         caution_text() + "\n" + help_text();
}
} // namespace throughbend
