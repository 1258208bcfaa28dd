#include "postprocess/runs/pass_sentences.h"

namespace throughbend
{
namespace
{
std::string sentence(const StudyPass &pass, const char *member, const std::string &metric,
                     const ShownNumber &shown)
{
  if (pass.accounts.empty())
    return metric;
  const JsonMembers accounts(pass.accounts, "the sentences of a pass in study.db");
  const std::string text = account_text(accounts, member, shown);
  return text.empty() ? metric : text;
}
} // namespace

std::string pass_verdict(const StudyPass &pass, const ShownNumber &shown)
{
  return sentence(pass, "verdict", pass.verdict, shown);
}

std::string pass_evidence(const StudyPass &pass, const ShownNumber &shown)
{
  return sentence(pass, "evidence", pass.evidence, shown);
}
} // namespace throughbend
