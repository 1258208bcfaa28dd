# Writes FILE, a source that holds each of the TEXTS: page.css becomes page_css().
set(source "#include \"postprocess/html/page_texts.h\"\n\nnamespace throughbend\n{\n")
foreach(text IN LISTS TEXTS)
  get_filename_component(name ${text} NAME)
  string(REPLACE "." "_" name ${name})
  file(READ ${text} content)
  string(APPEND source
         "std::string_view ${name}()\n{\n  return R\"page(${content})page\";\n}\n")
endforeach()
file(WRITE ${FILE} "${source}} // namespace throughbend\n")
