# Joins archives into one: -DAR=ar -DOUT=libx.a "-DARCHIVES=liba.a;libb.a"
set(script "CREATE ${OUT}.new\n")
foreach(archive ${ARCHIVES})
  string(APPEND script "ADDLIB ${archive}\n")
endforeach()
file(WRITE ${OUT}.mri "${script}SAVE\nEND\n")
execute_process(COMMAND ${AR} -M INPUT_FILE ${OUT}.mri COMMAND_ERROR_IS_FATAL ANY)
file(RENAME ${OUT}.new ${OUT})
