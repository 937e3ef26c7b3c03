# Debian's emscripten. NODE_PATH lets its link step find acorn (package node-acorn); the emulator
# flag keeps emscripten 3.1.6 from calling Node's own fetch, which it does not expect.
include(/usr/share/emscripten/cmake/Modules/Platform/Emscripten.cmake)
set(CMAKE_CXX_LINKER_LAUNCHER ${CMAKE_COMMAND} -E env NODE_PATH=/usr/share/nodejs)
find_program(AWLMARK_NODE node HINTS "${CMAKE_CURRENT_LIST_DIR}/../.node/bin" NO_CMAKE_FIND_ROOT_PATH)
set(CMAKE_CROSSCOMPILING_EMULATOR ${AWLMARK_NODE} --no-experimental-fetch)
