# ccache and mold only save time: they are used where they are installed and never needed.
find_program(ccache_program ccache)
if(ccache_program)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${ccache_program})
endif()
find_program(mold_program mold)
if(mold_program AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  add_link_options(-fuse-ld=mold)
endif()

# Modules that carry what others compute: at -O1 they are compiled a fifth faster, and nobody waits for them.
set(HW_CARRYING access catalogue record service sheets storage terminal web)
