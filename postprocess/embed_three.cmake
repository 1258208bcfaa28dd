# Writes FILE, a source that holds the library in FOLDER as a plain script: an object `three`
# with what the module exports, and the licence as a comment in front.
file(READ ${FOLDER}/three.module.min.js library)
file(READ ${FOLDER}/LICENSE licence)
string(FIND "${library}" "export{" start REVERSE)
if(start EQUAL -1)
  message(FATAL_ERROR "${FOLDER}/three.module.min.js exports nothing")
endif()
string(SUBSTRING "${library}" ${start} -1 exports)
string(SUBSTRING "${library}" 0 ${start} body)
string(REGEX REPLACE "([A-Za-z0-9_$]+) as ([A-Za-z0-9_$]+)" "\\2:\\1" exports "${exports}")
string(REPLACE "export{" "return{" exports "${exports}")
file(WRITE ${FILE}
     "#include \"postprocess/html/page_texts.h\"\n\nnamespace throughbend\n{\n"
     "std::string_view three_js()\n{\n  return R\"page(/*\n${licence}*/\n"
     "const three=(()=>{\n${body}${exports}})();\n)page\";\n}\n} // namespace throughbend\n")
