// Started by scripts/bench only; the test run never times anything.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
