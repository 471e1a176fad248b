# The review page's files become part of the program: an assembler file takes each in whole, a table names them.
set(review_dir ${CMAKE_CURRENT_LIST_DIR})
set(review_libraries d3/dist/d3.min.js @observablehq/plot/dist/plot.umd.min.js)
foreach(library ${review_libraries})
  if(NOT EXISTS ${review_dir}/node_modules/${library})
    message(FATAL_ERROR "The review page's plots need ${library}: run tools/setup.sh")
  endif()
endforeach()

file(GLOB page_files CONFIGURE_DEPENDS ${review_dir}/page/*)
list(TRANSFORM review_libraries PREPEND ${review_dir}/node_modules/)
set(assembly "    .section .rodata\n")
set(table "// Made by tools/review/assets.cmake.\n#include \"tools/review/assets.h\"\n\nextern \"C\" {\n")
set(rows "")
set(number 0)
foreach(file ${page_files} ${review_libraries})
  get_filename_component(name ${file} NAME)
  string(APPEND assembly "    .global evet_page_${number}, evet_page_${number}_end\n"
    "evet_page_${number}:\n    .incbin \"${file}\"\nevet_page_${number}_end:\n    .byte 0\n")
  string(APPEND table "extern const char evet_page_${number}[], evet_page_${number}_end[];\n")
  string(APPEND rows "      {\"${name}\", evet_page_${number}, evet_page_${number}_end},\n")
  math(EXPR number "${number} + 1")
endforeach()
string(APPEND assembly "    .section .note.GNU-stack,\"\",%progbits\n")
string(APPEND table "}\n\nnamespace evet::review {\n\nstd::span<const AssetFile> embedded_assets() {\n"
  "  static const AssetFile files[] = {\n${rows}  };\n  return files;\n}\n\n}  // namespace evet::review\n")
file(CONFIGURE OUTPUT ${CMAKE_CURRENT_BINARY_DIR}/review_assets.S CONTENT "${assembly}" @ONLY)
file(CONFIGURE OUTPUT ${CMAKE_CURRENT_BINARY_DIR}/review_assets.cpp CONTENT "${table}" @ONLY)
set(review_assets ${CMAKE_CURRENT_BINARY_DIR}/review_assets.S ${CMAKE_CURRENT_BINARY_DIR}/review_assets.cpp)
# The assembler's own dependency scan does not see what is taken in.
set_source_files_properties(${CMAKE_CURRENT_BINARY_DIR}/review_assets.S PROPERTIES
  OBJECT_DEPENDS "${page_files};${review_libraries}")
