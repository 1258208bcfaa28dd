// The words behind a verb.

#include "inputs/text/input_error.h"
#include "postprocess/verbs/verb.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
Verb weigh()
{
  Verb verb;
  verb.name          = "weigh";
  verb.operand       = "CASE";
  verb.keys          = CaseKeys::taken;
  verb.most_operands = 1;
  verb.options       = {{"scale", "kitchen|shop", "which one", {"kitchen", "shop"}},
                        {"note", "TEXT", "anything", {}},
                        {"pan", "WHICH", "a pan to use", {}, Given::again},
                        {"twice", "", "weigh again", {}}};
  return verb;
}
} // namespace

TEST_CASE("Words behind a verb are sorted into operands, options and keys", "[unit][words]")
{
  const VerbArguments given =
      verb_arguments(weigh(), {"a.ini", "--scale", "shop", "--coupon.thickness", "3/8 in",
                               "--twice", "--note=two words"});
  CHECK(given.operands == std::vector<std::string>{"a.ini"});
  CHECK(given.value("scale") == "shop");
  CHECK(given.value("note") == "two words");
  CHECK(given.has("twice"));
  CHECK(given.overrides == std::vector<std::string>{"--coupon.thickness", "3/8 in"});
  CHECK_FALSE(given.help);
  CHECK(the_case_file(given, "weigh") == "a.ini");
}

TEST_CASE("-h is help, but for the value of an option", "[unit][words]")
{
  CHECK(verb_arguments(weigh(), {"-h"}).help);
  CHECK(verb_arguments(weigh(), {"a.ini", "-h"}).help);
  CHECK_FALSE(verb_arguments(weigh(), {"--note=-h"}).help);
  CHECK_FALSE(verb_arguments(weigh(), {"--coupon.offset", "-h"}).help);
}

TEST_CASE("A word the verb doesn't know is refused with those it knows", "[unit][words]")
{
  using Catch::Matchers::Contains;
  CHECK_THROWS_WITH(verb_arguments(weigh(), {"--sacle", "shop"}),
                    Contains("--sacle") && Contains("--scale, --note, --pan, --twice"));
  CHECK_THROWS_WITH(verb_arguments(weigh(), {"--scale", "bathroom"}),
                    Contains("kitchen, shop"));
  CHECK_THROWS_WITH(verb_arguments(weigh(), {"--scale"}), Contains("--scale"));
  CHECK_THROWS_WITH(verb_arguments(weigh(), {"--scale", "shop", "--scale", "shop"}),
                    Contains("scale"));
  CHECK_THROWS_WITH(verb_arguments(weigh(), {"--sca", "shop"}),
                    Contains("--sca")); // whole names
  CHECK_THROWS_WITH(verb_arguments(weigh(), {"a.ini", "b.ini"}),
                    Contains("one case file at a time") && Contains("a.ini, b.ini"));
  CHECK_THROWS_AS(the_case_file(verb_arguments(weigh(), {}), "weigh"), InputError);
}

TEST_CASE("An option that may be given again keeps all its values in order",
          "[unit][words]")
{
  const VerbArguments given =
      verb_arguments(weigh(), {"--pan", "left", "a.ini", "--pan=right", "--note", "x"});
  CHECK(given.values("pan") == std::vector<std::string>{"left", "right"});
  CHECK(given.values("note") == std::vector<std::string>{"x"});
  CHECK(given.values("scale").empty());
  CHECK(given.operands == std::vector<std::string>{"a.ini"});
}

TEST_CASE("Help is given whatever else is said", "[unit][words]")
{
  CHECK(verb_arguments(weigh(), {"a.ini", "b.ini", "--help"}).help);
}

TEST_CASE("A verb without keys takes a word with a dot for what it is", "[unit][words]")
{
  Verb verb           = weigh();
  verb.keys           = CaseKeys::none;
  const auto operands = verb_arguments(verb, {"runs/sound.old"}).operands;
  CHECK(operands == std::vector<std::string>{"runs/sound.old"});
  CHECK_THROWS_AS(verb_arguments(verb, {"--coupon.thickness", "3 mm"}), InputError);
}
