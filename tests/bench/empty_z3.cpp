// The unit of time and memory for the other benchmarks: a process that starts Z3, checks one assertion and
// ends.
#include <z3++.h>

int main() {  // NOLINT(bugprone-exception-escape): a failure ends the process, as it should
  z3::context context;
  z3::solver solver(context);
  solver.add(context.bool_const("a"));
  return solver.check() == z3::sat ? 0 : 1;
}
