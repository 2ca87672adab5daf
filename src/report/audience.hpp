#pragma once

namespace hailwright {

/// Whom a document is for. A reviewer has the files and can mend them; a reader of what is
/// published has neither the files' keys nor our documentation beside it.
enum class Audience { reviewer, reader };

}  // namespace hailwright
