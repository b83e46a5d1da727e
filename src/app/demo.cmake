# Builds the demo jobs. Exit code 1 means "a check failed", which one of the jobs is there to show;
# everything above that is a failure of the demo.
execute_process(COMMAND ${FALLWRIGHT} build ${JOBS} --together --out ${OUT} RESULT_VARIABLE code)
if(code GREATER 1 OR NOT code MATCHES "^[0-9]+$")
  message(FATAL_ERROR "the demo jobs ended with exit code ${code}")
endif()
