# Run at every build: writes the version and the checkout's revision into FILE, and touches
# it only when they changed.
execute_process(
  COMMAND git -C ${SOURCE} describe --always --dirty --abbrev=10
  OUTPUT_VARIABLE revision OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
file(
  CONFIGURE OUTPUT ${FILE}
  CONTENT
    "#include \"postprocess/app/version.h\"

namespace throughbend
{
std::string program_version()
{
  return \"${VERSION}\";
}
std::string git_revision()
{
  return \"${revision}\";
}
} // namespace throughbend
")
