# Writes FILE, a source that holds the text of each of the TABLES. Raw strings end at a mark
# that no table holds.
set(text "#include \"inputs/catalogue/catalogue_texts.h\"\n\nnamespace throughbend\n{\n")
foreach(table IN LISTS TABLES)
  get_filename_component(name ${table} NAME_WE)
  file(READ ${table} content)
  string(APPEND text
         "std::string_view ${name}_csv()\n{\n  return R\"table(${content})table\";\n}\n")
endforeach()
file(WRITE ${FILE} "${text}} // namespace throughbend\n")
