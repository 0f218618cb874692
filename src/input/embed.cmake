# Writes the files as byte arrays into a C file: string literals may not be longer than 4095
# characters in portable C.
#   cmake -DOUT=tables.c -DNAME=bwi_tables -DTYPE=bwi_table -DHEADER=tables.h
#         "-DFILES=a.json|b.json" -P embed.cmake
string(REPLACE "|" ";" files "${FILES}")
set(code "/* Written by embed.cmake: do not edit. */\n#include \"${HEADER}\"\n\n")
set(rows "")
set(number 0)
foreach(file IN LISTS files)
  get_filename_component(name "${file}" NAME)
  file(READ "${file}" bytes HEX)
  # Twelve bytes a line.
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
  string(REGEX REPLACE "(0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,)" "\\1\n"
         bytes "${bytes}")
  string(APPEND code "static const unsigned char table_${number}[] = {\n${bytes}0x00};\n\n")
  string(APPEND rows "    {\"${name}\", table_${number}},\n")
  math(EXPR number "${number} + 1")
endforeach()
string(APPEND code "const ${TYPE} ${NAME}[] = {\n${rows}    {NULL, NULL},\n};\n")
file(WRITE "${OUT}" "${code}")
