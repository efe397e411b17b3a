// Factorisation of the sagittal model's stiffness: our multifrontal Cholesky against Eigen's simplicial L D L^T, in the
// same run. Processor time of the fastest of several repeats; ratios are what to read.
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <limits>
#include <string>

#include "scenarios/build_model.hpp"
#include "solver/multifrontal/factorisation.hpp"

namespace {

using namespace hoofload;
using solver::SparseMatrix;
using solver::multifrontal::Factorisation;

template <class Work>
double fastest_ms(int repeats, Work&& work) {
  double best = std::numeric_limits<double>::infinity();
  for (int r = 0; r < repeats; ++r) {
    const std::clock_t start = std::clock();
    work();
    best = std::min(best, 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  return best;
}

/// Stiffness of the unloaded model; a shift of a thousandth of the diagonal stands in for the contacts still open.
SparseMatrix stiffness(const solver::System& system) {
  solver::Assembly assembly;
  std::vector<solver::MixedRecovery> recovery;
  system.assemble(system.rest_state(100, 0), {}, assembly, recovery);
  SparseMatrix K = system.hessian(assembly);
  for (int i = 0; i < K.cols(); ++i) {
    double& d = K.coeffRef(i, i);
    d += 1e-3 * std::abs(d) + 1e-6;
  }
  return K;
}

/// As when a contact closes: its row and column become those of the identity.
SparseMatrix with_held(SparseMatrix lower, int unknown) {
  for (int c = 0; c < lower.cols(); ++c)
    for (SparseMatrix::InnerIterator it(lower, c); it; ++it)
      if (c == unknown || it.row() == unknown) it.valueRef() = c == it.row() ? 1 : 0;
  return lower;
}

void must(bool done) {
  if (done) return;
  std::cerr << "bench_factor: the matrix could not be factored\n";
  std::exit(1);
}

/// Largest of |r|_i / (|A| |x| + |b|)_i (Oettli, Prager 1964): blind to how the rows are scaled.
double backward_error(const SparseMatrix& lower, const Eigen::VectorXd& x, const Eigen::VectorXd& b) {
  const SparseMatrix A = lower.selfadjointView<Eigen::Lower>();
  const Eigen::VectorXd size = A.cwiseAbs() * x.cwiseAbs() + b.cwiseAbs();
  return ((A * x - b).cwiseAbs().array() / size.array()).maxCoeff();
}

void measure(double density) {
  const scenarios::BuiltModel built = scenarios::build_sagittal({}, materials::load_catalogue(), density);
  const SparseMatrix A = stiffness(*built.system);
  const SparseMatrix B = with_held(A, built.system->contact_points().back().normal);
  const Eigen::VectorXd b = Eigen::VectorXd::Ones(A.cols());
  Factorisation own(A);
  const double analyse = fastest_ms(1, [&] { own = Factorisation(A); });
  const double whole = fastest_ms(10, [&] { own.forget(), must(own.factorise(A)); });
  const int fronts = own.fronts_done();
  int turn = 0;
  const double part = fastest_ms(20, [&] { must(own.factorise(++turn % 2 != 0 ? B : A)); });
  const int redone = own.fronts_done();
  Eigen::VectorXd x;
  const double solve = fastest_ms(10, [&] { x = own.solve(b); });
  Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower, Eigen::AMDOrdering<int>> reference;
  reference.analyzePattern(A);
  const double simplicial = fastest_ms(5, [&] { reference.factorize(A); });
  std::cout << "density " << density << ": unknowns " << A.cols() << ", entries " << A.nonZeros() << ", fronts "
            << fronts << ", backward error " << backward_error(A, x, b) << "\n  analyse " << analyse << " ms, factor "
            << whole << ", one contact changed " << part << " (" << redone << " fronts), solve " << solve
            << "; simplicial L D L^T " << simplicial << "\n  ratios: " << simplicial / whole << " whole, "
            << simplicial / part << " one contact\n";
}

}  // namespace

int main(int argc, char** argv) {
  std::cout.precision(3);
  if (argc > 1)
    measure(std::stod(argv[1]));
  else
    for (double density : {0.7, 1.0, 1.4, 2.0}) measure(density);
}
