# What is installed beside the program and made by it: manual pages, completions, schemas; and what a Debian package must
# have. -DFALLWRIGHT=program -DVERSION=... -DCHANGELOG=docs/changelog.md -DOUT=folder
file(MAKE_DIRECTORY ${OUT})

# made(<file> [GZIP] <what the program is asked>...)
function(made file)
  cmake_parse_arguments(ARG GZIP "" "" ${ARGN})
  set(pipe "")
  if(ARG_GZIP)
    set(pipe COMMAND gzip -9n)
  endif()
  execute_process(COMMAND ${FALLWRIGHT} ${ARG_UNPARSED_ARGUMENTS} ${pipe} OUTPUT_FILE ${OUT}/${file} COMMAND_ERROR_IS_FATAL ANY)
endfunction()

made(fallwright.1.gz GZIP manual fallwright.1)
made(fallwright-job.5.gz GZIP manual fallwright-job.5)
made(job.schema.json schema job)
made(report.schema.json schema report)
made(fallwright.bash completion bash)
made(fallwright.zsh completion zsh)
made(fallwright.fish completion fish)

# The version stands in CMakeLists.txt; what changed with it, and when, in docs/changelog.md.
file(READ ${CHANGELOG} changes)
if(NOT changes MATCHES "\n## ${VERSION}, ([0-9-]+)\n")
  message(FATAL_ERROR "${CHANGELOG} tells nothing of version ${VERSION}")
endif()
execute_process(COMMAND date -u -R -d ${CMAKE_MATCH_1} OUTPUT_VARIABLE day OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
file(WRITE ${OUT}/changelog
  "fallwright (${VERSION}) stable; urgency=medium\n\n  * What changed is told in changelog.md, beside this file.\n\n -- ${CONTACT}  ${day}\n")
execute_process(COMMAND gzip -9nc ${OUT}/changelog OUTPUT_FILE ${OUT}/changelog.gz COMMAND_ERROR_IS_FATAL ANY)
