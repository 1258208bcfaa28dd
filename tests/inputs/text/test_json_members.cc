// JSON is read back by kind and path, and no text, however broken, gets past a message.

#include "inputs/text/json_members.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace throughbend;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace
{
JsonMembers members(const std::string &text)
{
  return {text, "run.json"};
}

const std::string invented = R"({
  "title": "a \"pass\" \u00fc",
  "unknown": null,
  "null": "null",
  "figures": {"force_N": 80000, "share": 1.25e-3, "turned": -0.5, "held": false},
  "events": [{"kind": "frame touched"}, {"kind": "leg ironed"}]
}
)";
} // namespace

TEST_CASE("members are found by path and read by kind", "[unit][json]")
{
  const JsonMembers json = members(invented);
  CHECK(json.word("title") == "a \"pass\" \xc3\xbc");
  CHECK(json.number("figures.force_N") == 80000);
  CHECK(json.digits("figures.share") == "1.25e-3"); // as it stands in the file
  CHECK(json.number("figures.turned") == -0.5);
  CHECK(json.truth("figures.held") == false);
  CHECK(json.word("events.1.kind") == "leg ironed");
  CHECK(json.names_in("figures") ==
        std::vector<std::string>{"force_N", "held", "share", "turned"});

  CHECK(json.word("nothing").empty());
  CHECK(std::isnan(json.number("nothing.at.all")));
  CHECK_FALSE(json.truth("figures.nothing").has_value());
}

TEST_CASE("null is not known, and the text null is a text", "[unit][json]")
{
  const JsonMembers json = members(invented);
  CHECK_FALSE(json.has("unknown"));
  CHECK(json.word("unknown").empty());
  CHECK(std::isnan(json.number("unknown")));
  CHECK(json.word("null") == "null");
  CHECK_THROWS_WITH(json.number("null"), Contains("the text \"null\", and a number"));
}

TEST_CASE("a member of another kind is named with file, place and cure", "[unit][json]")
{
  const JsonMembers json = members(invented);
  CHECK_THROWS_WITH(
      json.word("figures.force_N"),
      "run.json: figures.force_N is the number 80000, and a text is expected. Was "
      "it edited by hand, or written by another program? Put it back as it "
      "was, or push the case again.");
  CHECK_THROWS_WITH(json.word("figures"), Contains("figures is a group, and a text"));
  CHECK_THROWS_WITH(json.truth("title"), Contains("and true or false is expected"));
  CHECK_THROWS_WITH(json.number("title.length_mm"), Contains("and a group is expected"));
  CHECK_THROWS_AS(json.number("figures.held"), InputError);
}

TEST_CASE("a text that ends early is cut off, wherever it ends", "[unit][json]")
{
  const std::string whole = invented.substr(0, invented.rfind('}'));
  for (std::size_t bytes = 0; bytes <= whole.size(); ++bytes)
  {
    INFO(bytes << " bytes");
    CHECK_THROWS_AS(members(invented.substr(0, bytes)), CutOffError);
  }
  CHECK_THROWS_WITH(
      members("{\n\"a\": 1,\n"),
      "run.json cannot be read: it is cut off in line 3. Push the case again.");
}

TEST_CASE("what is no JSON is refused with its place", "[unit][json]")
{
  CHECK_THROWS_WITH(
      members("{\n  \"a\": 1,\n  b: 2\n}"),
      StartsWith("run.json cannot be read: line 3 is no JSON from its byte 3"));
  CHECK_THROWS_WITH(members("{\"a\": 1}}"),
                    Contains("line 1 is no JSON from its byte 9 on"));
  CHECK_THROWS_WITH(members("{\"a\": \"\xff\"}"), Contains("line 1 is no JSON"));
  CHECK_THROWS_WITH(members("{\"a\": 1e999}"),
                    Contains("the number 1e999 in line 1 is too"));
  CHECK(members("{\"a\": 1e308}").number("a") == 1e308);
  CHECK(members("{\"a\": 123456789012345678901234567890}").number("a") ==
        123456789012345678901234567890.);
  CHECK_THROWS_WITH(members(R"({"a": {"b": 1, "b": 2}})"), Contains("a.b is there twice"));
  CHECK_THROWS_WITH(members(std::string(1000000, '[')), Contains("nested groups"));
  std::string deep;
  for (int i = 0; i < 100000; ++i)
    deep += "{\"a\":";
  CHECK_THROWS_WITH(members(deep), Contains("nested groups"));
  CHECK(members("7").word("program").empty());
}

TEST_CASE("whatever is done to a file, there is a message or an answer", "[unit][json]")
{
  std::mt19937 any(7);
  int          refused = 0;
  for (int i = 0; i < 5000; ++i)
  {
    std::string text = invented;
    for (auto changes = 1 + any() % 3; changes > 0; --changes)
      text[any() % text.size()] = static_cast<char>(any() % 256);
    try
    {
      const JsonMembers json = members(text);
      json.word("title");
      json.number("figures.force_N");
      json.word("events.0.kind");
    }
    catch (const InputError &error)
    {
      ++refused;
      CHECK_THAT(error.what(), StartsWith("run.json") && Contains("ush the case again."));
    }
  }
  CHECK(refused > 2500); // most bytes matter
}
