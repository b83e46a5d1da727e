/// From job values to the model. Free of kernel headers, so that the application can hold a model without them.
#pragma once

#include <memory>

namespace fallwright::job {
struct Job;
}

namespace fallwright::parts {
struct Model;

/// Builds every solid of the job.
/// @throws diag::ModelError naming the part when the kernel refuses; impossible jobs are refused earlier, by `job`.
std::shared_ptr<const Model> build(const job::Job& job);

}  // namespace fallwright::parts
