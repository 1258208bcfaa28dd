#include "postprocess/app/manual_page.h"

#include "inputs/keys/case_help.h"
#include "postprocess/app/help.h"
#include "postprocess/app/version.h"
#include "postprocess/words/caution.h"

namespace throughbend
{
namespace
{
/// Text that roff prints as it stands: no escapes, no requests, real hyphens.
std::string plain(const std::string &text)
{
  std::string safe;
  bool        line_begins = true;
  for (const char c : text)
  {
    if (line_begins && (c == '.' || c == '\''))
      safe += "\\&";
    if (c == '\\')
      safe += "\\e";
    else if (c == '-')
      safe += "\\-";
    else
      safe += c;
    line_begins = c == '\n';
  }
  return safe;
}

std::string section(const std::string &name)
{
  return ".SH " + name + "\n";
}

std::string as_it_stands(const std::string &text)
{
  return ".nf\n" + plain(text) + (text.empty() || text.back() == '\n' ? "" : "\n") +
         ".fi\n";
}

std::string about_verb(const Verb &verb)
{
  std::string text = ".SS " + plain(usage(verb)) + "\n" + plain(verb.about) + "\n";
  for (const VerbOption &option : verb.options)
  {
    text += ".TP\n.B \\-\\-" + plain(option.name) +
            (option.value.empty() ? "" : " \\fI" + plain(option.value) + "\\fR") + "\n" +
            plain(option.help);
    if (!option.choices.empty() && option.value.find('|') == std::string::npos)
    {
      text += ":";
      for (const std::string &choice : option.choices)
        text += " " + plain(choice);
    }
    text += "\n";
  }
  return text;
}
} // namespace

std::string manual_page(const std::vector<Verb> &verbs)
{
  std::string page = ".TH THROUGHBEND 1 \"\" \"throughbend " + plain(program_version()) +
                     "\" \"User commands\"\n" + section("NAME") +
                     "throughbend \\- simulates the guided bend test of a weld coupon\n" +
                     section("SYNOPSIS");
  for (const Verb &verb : verbs)
    page += ".B " + plain(usage(verb)) + "\n.br\n";
  page += section("DESCRIPTION") +
          "In a guided bend test a plunger pushes a flat coupon between two shoulders "
          "until it is a U and drops out. throughbend computes whether the coupon goes "
          "through or stops, and why, with force, strain and springback.\n" +
          section("CAUTIONS") + as_it_stands(caution_text()) + section("VERBS");
  for (const Verb &verb : verbs)
    page += about_verb(verb);
  return page + section("EXIT STATUS") + as_it_stands(exit_codes_text()) +
         section("KEYS OF A CASE") + as_it_stands(help_text());
}
} // namespace throughbend
