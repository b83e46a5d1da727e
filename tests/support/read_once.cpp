// Nothing but a file to hang the headers on that all tests read; tests/CMakeLists.txt names them.
