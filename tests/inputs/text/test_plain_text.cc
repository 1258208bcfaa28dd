#include "inputs/text/plain_text.h"

#include <catch2/catch.hpp>

#include <string>

using namespace throughbend;

TEST_CASE("the edit distance counts single slips", "[unit][text]")
{
  CHECK(edit_distance("radius", "radius") == 0);
  CHECK(edit_distance("radus", "radius") == 1);
  CHECK(edit_distance("radiuss", "radius") == 1);
  CHECK(edit_distance("radiis", "radius") == 1);
  CHECK(edit_distance("raduis", "radius") == 1); // two neighbours swapped
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance("kitten", "sitting") == 3); // the textbook pair, from memory
}

TEST_CASE("only a near name is taken for the one that was meant", "[unit][text]")
{
  CHECK(nearest_name("opnening", {"radius", "opening", "depth"}) == std::string("opening"));
  CHECK_FALSE(nearest_name("friction", {"radius", "opening", "depth"}).has_value());
  CHECK_FALSE(nearest_name(std::string(5000, 'a'), {"aaaa"}).has_value());
}

TEST_CASE("binary and broken UTF-8 are found where they stand", "[unit][text]")
{
  CHECK_FALSE(find_binary_byte("plain\ttext\r\n").has_value());
  // Two, three and four bytes long: e acute, euro sign, musical G clef.
  CHECK_FALSE(find_binary_byte("\xC3\xA9 \xE2\x82\xAC \xF0\x9D\x84\x9E").has_value());
  CHECK(find_binary_byte(std::string("ab\0c", 4)) == std::size_t{2});
  CHECK(find_binary_byte("ab\x1B[0m") == std::size_t{2});
  // RFC 3629, sections 3 and 10: overlong forms, surrogates and cut characters are invalid.
  CHECK(find_binary_byte("a\xC0\xAF") == std::size_t{1});
  CHECK(find_binary_byte("a\xE0\x80\xAF") == std::size_t{1});
  CHECK(find_binary_byte("a\xED\xA0\x80") == std::size_t{1});
  CHECK(find_binary_byte("a\xE2\x82") == std::size_t{1});
  CHECK(find_binary_byte("a\xF5\x80\x80\x80") == std::size_t{1});
}

TEST_CASE("clipping never cuts a character", "[unit][text]")
{
  CHECK(clipped("short", 10) == "short");
  CHECK(clipped("abc\xC3\xA9z", 4) == "abc...");
  CHECK(clipped("abc\xC3\xA9z", 5) == "abc\xC3\xA9...");
}

TEST_CASE("long text is broken between words", "[unit][text]")
{
  CHECK(wrapped("one two three", "# ", 9) == "# one two\n# three\n");
  CHECK(wrapped("", "# ", 9).empty());
}
