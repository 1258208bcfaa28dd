#pragma once
// What carries out each verb of studies on the first rank. Called with a crew that is
// ready.

#include "inputs/exit_code.h"
#include "inputs/verb.h"
#include "solver/app/study_order.h"
#include "solver/study/pass_crew.h"
#include "solver/study/study_case.h"

#include <memory>

namespace throughbend
{
ExitCode limit_study(const GivenWords &given, const StudyCase &base,
                     std::unique_ptr<PassCrew> crew);
ExitCode map_study(const GivenWords &given, const StudyCase &base,
                   std::unique_ptr<PassCrew> crew);
ExitCode spread_study(const GivenWords &given, const StudyCase &told,
                      std::unique_ptr<PassCrew> crew);
ExitCode choose_study(const GivenWords &given, const StudyCase &as_told,
                      std::unique_ptr<PassCrew> crew);
ExitCode fit_pass_study(const GivenWords &given, const StudyCase &told,
                        std::unique_ptr<PassCrew> crew);
} // namespace throughbend
