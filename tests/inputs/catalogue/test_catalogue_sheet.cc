#include "inputs/catalogue/catalogue_sheet.h"
#include "inputs/catalogue/rule_catalogue.h"
#include "inputs/text/input_error.h"

#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <string>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
const CatalogueColumns two = {{"name", "size", "note"}, {"name", "size"}};

std::string faults(const std::string &text)
{
  return fault_list(read_sheet(text, "shop.csv", two).faults);
}
} // namespace

TEST_CASE("rows come with their place and blank cells for columns left out",
          "[unit][catalogue]")
{
  const CatalogueSheet sheet =
      read_sheet("\xEF\xBB\xBFname,size\r\n\r\n a , 4t \nb,\"1,5\"", "shop.csv", two);
  CHECK(sheet.faults.empty());
  REQUIRE(sheet.rows.size() == 2);
  CHECK(sheet.rows[0].place == "shop.csv:3");
  CHECK(sheet.rows[0].cell("size") == "4t");
  CHECK(sheet.rows[0].cell("note").empty());
  CHECK(sheet.rows[1].cell("size") == "1,5"); // the last line without its end
}

TEST_CASE("all that is wrong with a sheet is told at once, with line and column",
          "[unit][catalogue]")
{
  const std::string all = faults("name,siz,note,note\n"
                                 "a,1,x,y\n"
                                 "b,1\n");
  CHECK_THAT(all, Contains("shop.csv:1: siz; unknown column; did you mean 'size'?"));
  CHECK_THAT(all, Contains("shop.csv:1: note; the column is there twice"));
  CHECK_THAT(all, Contains("shop.csv:1: size; the column is missing"));
  CHECK_THAT(all, Contains("shop.csv:3: has 2 cells where there are 4"));
  CHECK_THAT(faults("name,size\na,\n"), Contains("shop.csv:2: size; must not be empty"));
  CHECK_THAT(faults(""), Contains("no header line"));
  CHECK_THAT(faults("name,size\n\"a,1\n"), Contains("shop.csv:2: a quote is not closed"));
  CHECK_THAT(faults(std::string("name,size\na,\0\n", 15)), Contains("UTF-8"));
}

TEST_CASE("names can be typed anywhere", "[unit][catalogue]")
{
  for (const std::string name : {"a36", "6061-t6", "x"})
    CHECK(is_catalogue_name(name));
  for (const std::string name : {"", "A36", "a 36", "-a", "a-", "a--b", "a#b", "\xC3\xA9"})
    CHECK_FALSE(is_catalogue_name(name));
}

TEST_CASE("a user's rules add to the built-in ones and shadow them by name",
          "[unit][catalogue]")
{
  const ScratchFolder folder;
  const std::string   path = (folder / "rules.csv").string();
  put_content(path, "rule,jig,standard,A,C,how\n"
                    "yard-jig,plunger,Kestrel Haven,4t,6t + 3.2 mm,invented\n"
                    "asme-ix-plunger-general,plunger,Kestrel Haven,5t,7t,invented\n");
  const RuleCatalogue rules = rules_with(path);
  CHECK(rules.has_rule("yard-jig"));
  REQUIRE(rules.rows_of("asme-ix-plunger-general").size() == 1);
  CHECK(rules.rows_of("asme-ix-plunger-general").front().standard == "Kestrel Haven");
  CHECK(rules.rows_of("asme-ix-plunger-p11").size() == 4);
  CHECK(rules_with("").rows().size() == built_in_rules().rows().size());
}

TEST_CASE("a user's bad rules are refused with every fault", "[unit][catalogue]")
{
  const ScratchFolder folder;
  const std::string   path = (folder / "rules.csv").string();
  put_content(path, "rule,jig,standard,thickness,yield,A,C,how\n"
                    "Yard Jig,press,Kestrel Haven,10 mm,< 50,4x,6t,guessed\n"
                    "empty-jig,plunger,Kestrel Haven,,,,,invented\n"
                    "yard-jig,plunger,Kestrel Haven,,,4t,A + Z,\"read; Q: read\"\n");
  try
  {
    rules_with(path);
    FAIL("taken");
  }
  catch (const InputError &error)
  {
    const std::string all = error.what();
    INFO(all);
    CHECK_THAT(all, Contains(":2: rule = Yard Jig; is no name"));
    CHECK_THAT(all, Contains(":2: jig = press; is not one of: plunger, roller, wrap"));
    CHECK_THAT(all, Contains(":2: thickness = 10 mm;") && Contains("lacks <"));
    CHECK_THAT(all, Contains(":2: yield = < 50;") && Contains("unit is missing"));
    CHECK_THAT(all, Contains(":2: A = 4x;"));
    CHECK_THAT(all, Contains(":2: how = guessed;"));
    CHECK_THAT(all, Contains(":3: A; A, B and C are all empty"));
    CHECK_THAT(all, Contains(":4: C = A + Z;"));
    CHECK_THAT(all, Contains(":4: how = read; Q: read; names the column 'Q'"));
  }
  CHECK_THROWS_WITH(rules_with((folder / "none.csv").string()),
                    Contains("there is no such file"));
}
