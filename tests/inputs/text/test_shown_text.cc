// What others have written reaches neither terminal nor spreadsheet as a command.

#include "inputs/text/shown_text.h"

#include <catch2/catch.hpp>

using namespace throughbend;

TEST_CASE("characters that steer a terminal are written out", "[unit][text]")
{
  CHECK(shown_text("plain, \xc3\xa4, \xe6\xbc\xa2") == "plain, \xc3\xa4, \xe6\xbc\xa2");
  CHECK(shown_text("\x1b[2Jgone") == "\\x1b[2Jgone"); // ECMA-48: clears the screen
  CHECK(shown_text("\xc2\x9b"
                   "31m") == "\\u{9b}31m"); // the same sequence begun by one C1 character
  CHECK(shown_text("a\xe2\x80\xae"
                   "b") == "a\\u{202e}b"); // right to left from here on
  CHECK(shown_text("\xe2\x81\xa6") == "\\u{2066}");
  CHECK(shown_text("\x7f\x01") == "\\x7f\\x01");
  CHECK(shown_text("caf\xe9") == "caf\\xe9"); // no UTF-8
  CHECK(shown_text("two\nlines\tand a tab") == "two\\x0alines\\x09and a tab");
  CHECK(shown_lines("two\nlines\tand \x1b") == "two\nlines\tand \\x1b");
  CHECK(shown_text("") == "");
}

TEST_CASE("a text that a spreadsheet would run is marked as text", "[unit][text]")
{
  CHECK(text_cell("=1+1") == "'=1+1");
  CHECK(text_cell("+1") == "'+1");
  CHECK(text_cell("-1 and more") == "'-1 and more");
  CHECK(text_cell("@SUM(A1)") == "'@SUM(A1)");
  CHECK(text_cell("-") == "-");
  CHECK(text_cell("runs/=1") == "runs/=1");
  CHECK(text_cell("\t=1+1") == "\\x09=1+1"); // a tab in front is no way round it
  CHECK(text_cell("") == "");
}

TEST_CASE("what a file holds is cited between quotes that it cannot close", "[unit][text]")
{
  CHECK(quoted_text("inch") == "'inch'");
  CHECK(quoted_text("") == "''");
  CHECK(quoted_text("jack's 6\" plate") == "'jack''s 6\" plate'");
  CHECK(quoted_text("a\nb\x1b") == "'a\\x0ab\\x1b'");
  CHECK(quoted_text("0123456789", 4) == "'0123...'");
}

TEST_CASE("a message is no longer than a person reads", "[unit][text]")
{
  CHECK(shown_message("one\ntwo\n") == "one\ntwo\n");
  CHECK(shown_message("") == "");
  CHECK(shown_message("\x1b") == "\\x1b");
  const std::string one_line = shown_message("say " + std::string(100000, 'x') + ": no");
  CHECK(one_line.size() <= 2000);
  CHECK(one_line.substr(one_line.size() - 3) == "...");
  CHECK(shown_message(std::string(100000, '\x1b')).size() <= 2000); // as written out, too
  std::string lines;
  for (int i = 0; i < 1000; ++i)
    lines += "line\n";
  const std::string many = shown_message(lines);
  CHECK(many.size() < 400);
  CHECK(many.substr(many.size() - 23) == "... and 940 more lines\n");
}
