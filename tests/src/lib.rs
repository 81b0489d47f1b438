//! Nothing lives here: the package exists for its tests and benchmarks.
