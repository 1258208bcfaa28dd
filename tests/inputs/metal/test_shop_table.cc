// Tables of a shop: what a spreadsheet, a machine or an editor writes. All figures here are
// invented; units by NIST SP 811 through inputs/units/units.

#include "inputs/metal/shop_table.h"
#include "inputs/text/input_error.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
ShopTable table_of(const std::string &text)
{
  return ShopTable::of_text(text, "a.csv");
}

std::vector<double> column(const ShopTable &table, const std::string &name,
                           const UnitKind kind)
{
  return table.values(table.find({name}).value(), kind);
}

std::string refusal(const std::string &text)
{
  try
  {
    const ShopTable table = table_of(text);
    column(table, "travel", UnitKind::length);
    column(table, "force", UnitKind::force);
  }
  catch (const InputError &error)
  {
    return error.what();
  }
  return "";
}
} // namespace

TEST_CASE("a shop's table is read with its units, whatever separates it", "[unit][shop]")
{
  for (const char *const text :
       {"travel [mm],force [kN]\n1.5,2.25\n10,30\n",
        "\xEF\xBB\xBFTravel (mm);Force (kN)\r\n1,5;2,25\r\n10;30\r\n",
        "travel / mm\tforce / kN\n1,5\t2,25\n\n10\t30",
        "# made on a bench\n\ntravel [mm];force [kN];;\n1.5;2.25;;\n;;;\n# "
        "pause\n10;30;;\n",
        "travel,force\n1.5 mm,2.25 kN\n10 mm,30 kN\n",
        "travel [mm],force [kN]\n\"1,5\",\"2,25\"\n10,30\n"})
  {
    const ShopTable table = table_of(text);
    CHECK(column(table, "travel", UnitKind::length) == std::vector<double>{1.5, 10});
    CHECK(column(table, "force", UnitKind::force) == std::vector<double>{2250, 30000});
  }
  const ShopTable inches = table_of("travel [in];force [kip]\n3/8;1\n1-1/2;\n");
  CHECK(column(inches, "travel", UnitKind::length) == std::vector<double>{9.525, 38.1});
  const std::vector<double> force = column(inches, "force", UnitKind::force);
  CHECK(force[0] == Approx(4448.2216));
  CHECK(std::isnan(force[1]));
  CHECK(inches.system(0) == UnitSystem::us);
  CHECK(inches.place(1) == "a.csv:3");
  CHECK_FALSE(inches.find({"pressure", "gauge pressure"}));
}

TEST_CASE("lines before the heads are notes of the table", "[unit][shop]")
{
  const ShopTable table = table_of("Jack_bore = 60,5 mm;;\n# pump stroke: 1/2 in\nremark\n"
                                   "travel [mm];force [kN]\n1;2\n");
  // `remark` stands where the heads are expected, and is taken for them.
  CHECK(table.heads().front().name == "remark");

  const ShopTable good = table_of("Jack_bore = 60,5 mm;;\n# pump stroke: 1/2 in\n# remark\n"
                                  "travel [mm];force [kN]\n1;2\n");
  CHECK(good.note({"jack bore"}, UnitKind::length) == 60.5);
  CHECK(good.note({"pump stroke"}, UnitKind::length) == 12.7);
  CHECK_FALSE(good.note({"pump bore"}, UnitKind::length));
  CHECK(good.notes().size() == 2);
  CHECK(good.line(0) == 5);
  CHECK_THROWS_WITH(good.note({"jack bore"}, UnitKind::force),
                    Contains("a.csv:1") && Contains("jack bore = 60,5 mm"));
}

TEST_CASE("a decimal comma is taken where nothing else can be meant", "[unit][shop]")
{
  const auto travels = [](const std::string &cells)
  { return column(table_of("travel [mm]\n" + cells), "travel", UnitKind::length); };
  CHECK(travels("\"0,125\"\n") == std::vector<double>{0.125});
  // One certain decimal shows what the others are.
  CHECK(column(table_of("travel [mm];force [kN]\n1,250;2,5\n"), "travel",
               UnitKind::length) == std::vector<double>{1.25});
  CHECK_THAT(refusal("travel [mm];force [N]\n1;1,250\n2;2,500\n"),
             Contains("a.csv:2") && Contains("'1,250' may be a decimal number or one with "
                                             "its thousands separated"));
  CHECK_THAT(refusal("travel [mm];force [N]\n1;1.250,5\n"), Contains("'1.250,5'"));
  CHECK_THAT(refusal("travel [mm];force [N]\n1;1,250,000\n"), Contains("'1,250,000'"));
  CHECK_THAT(refusal("travel [mm];force [N]\n1,5;12.5\n"),
             Contains("a point where other numbers of the table have a comma"));
  CHECK_THAT(refusal("travel [mm],force [kN]\n1,5,2,25\n"),
             Contains("4 cells under 2 heads") && Contains("separated by semicolons"));
}

TEST_CASE("what is wrong in a shop's table is named with its line", "[unit][shop]")
{
  CHECK_THAT(refusal(""), Contains("no line of heads"));
  CHECK_THAT(refusal("1;2\n3;4\n"), Contains("a.csv:1") && Contains("'1' stands where"));
  CHECK_THAT(refusal("travel [mm];force [kN]\n1;2\n3\n"),
             Contains("a.csv:3") && Contains("1 cells under 2 heads"));
  CHECK_THAT(refusal("travel [mm];force [t]\n1;2\n"),
             Contains("may be one of three forces"));
  CHECK_THAT(refusal("travel [mm];force\n1;2\n"),
             Contains("the unit is missing") && Contains("as in travel [mm]"));
  CHECK_THAT(refusal("travel [mm];force [mm]\n1;2\n"), Contains("is a unit of length"));
  CHECK_THAT(refusal("travel [mm];force [kN]\n1;about 2\n"),
             Contains("a.csv:2") && Contains("'about 2'"));
  CHECK_THAT(refusal("travel [mm];Travel [in];force [kN]\n1;2;3\n"),
             Contains("are the same"));
  CHECK_THAT(refusal("travel [mm];force [kN]\n1;\"2\n"), Contains("never closed"));
  CHECK_THAT(refusal(std::string("t\0r\0", 4)), Contains("UTF-8"));
}
