# ccache and mold only save time: they are used where they are installed and never needed. What another checkout on this
# computer has compiled is taken over: paths count from the top of the checkout, also those that assertions name.
find_program(ccache_program ccache)
if(ccache_program)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CMAKE_COMMAND} -E env CCACHE_BASEDIR=${CMAKE_SOURCE_DIR} CCACHE_NOHASHDIR=1
                                  ${ccache_program})
endif()
add_compile_options(-fmacro-prefix-map=${CMAKE_SOURCE_DIR}/=)
find_program(mold_program mold)
if(mold_program AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  add_link_options(-fuse-ld=mold)
endif()

# Modules that carry what others compute: at -O1 they are compiled a fifth faster, and nobody waits for them.
set(HW_CARRYING access catalogue record service sheets storage terminal web)
