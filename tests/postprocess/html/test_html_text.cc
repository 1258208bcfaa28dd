// No text of a case can become a tag, an attribute or the end of a script.

#include "postprocess/html/html_text.h"

#include <catch2/catch.hpp>

using namespace throughbend;

TEST_CASE("text is escaped for tags and attributes", "[report]")
{
  CHECK(escaped("<script>alert(\"1\" & '2')</script>") ==
        "&lt;script&gt;alert(&quot;1&quot; &amp; &#39;2&#39;)&lt;/script&gt;");
  CHECK(escaped("3/8 in, 20 \xC2\xB5m") == "3/8 in, 20 \xC2\xB5m"); // UTF-8 stays
  CHECK(escaped("a\xFF\xC3z\xED\xA0\x80") == // none of it UTF-8; each byte is shown as one
        "a\xEF\xBF\xBD\xEF\xBF\xBDz\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
  CHECK(escaped(std::string("a\0b\x1b[31mc", 9)) == "ab[31mc");
  CHECK(escaped("a\x7f\xC2\x9b\nb\tc") == "a\nb\tc");
  // U+202E would turn 29.8 kN around, U+2066 isolates what follows.
  CHECK(escaped("\xE2\x80\xAE"
                "29.8 \xE2\x81\xA6kN") == "29.8 kN");
}

TEST_CASE("JSON in a script element cannot end it", "[report]")
{
  const std::string safe = script_safe("{\"title\": \"</script><!--&\"}");
  CHECK(safe.find('<') == std::string::npos);
  CHECK(safe.find('>') == std::string::npos);
  CHECK(safe == "{\"title\": \"\\u003c/script\\u003e\\u003c!--\\u0026\"}");
  CHECK(script_safe("\"a\x7f\"") == "\"a\\u007f\"");
}

TEST_CASE("base64 agrees with the examples of RFC 4648, section 10", "[report]")
{
  CHECK(base64("").empty());
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foobar") == "Zm9vYmFy");
  CHECK(base64("\xff\xfe\xfd") == "//79");
}

TEST_CASE("a table escapes every cell and is empty without rows", "[report]")
{
  CHECK(table({"a"}, {}).empty());
  const std::string text = table({"<h>"}, {{"<i>", "<j>"}});
  for (const char *const tag : {"<h>", "<i>", "<j>"})
    CHECK(text.find(tag) == std::string::npos);
  CHECK(text.find("&lt;j&gt;") != std::string::npos);
}

TEST_CASE("a template is filled in one go", "[report]")
{
  // Braces that come from a case must not reach for another part.
  CHECK(filled("<{{a}}|{{b}}>", {{"a", "{{b}}"}, {"b", "x"}}) == "<{{b}}|x>");
  CHECK_THROWS(filled("{{nobody}}", {}));
  CHECK_THROWS(filled("{{a", {{"a", ""}}));
}
