#pragma once
// What carries out each verb of studies on the first rank. Called with a crew that is
// ready.

#include "postprocess/app/study_order.h"
#include "postprocess/verbs/exit_code.h"
#include "postprocess/verbs/verb.h"
#include "solver/study/pass_crew.h"
#include "solver/study/study_case.h"

#include <memory>

namespace throughbend
{
ExitCode limit_study(const VerbArguments &given, const StudyCase &base,
                     std::unique_ptr<PassCrew> crew);
ExitCode map_study(const VerbArguments &given, const StudyCase &base,
                   std::unique_ptr<PassCrew> crew);
ExitCode spread_study(const VerbArguments &given, const StudyCase &stated,
                      std::unique_ptr<PassCrew> crew);
ExitCode choose_study(const VerbArguments &given, const StudyCase &as_given,
                      std::unique_ptr<PassCrew> crew);
ExitCode fit_pass_study(const VerbArguments &given, const StudyCase &stated,
                        std::unique_ptr<PassCrew> crew);
} // namespace throughbend
