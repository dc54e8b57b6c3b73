// Whether this is a build under AddressSanitizer, which reserves terabytes of address space, reads
// files for its reports and refuses great allocations by itself: some limits are another's then.
#pragma once

namespace fettle {

#if defined(FETTLE_SANITIZED)
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif

} // namespace fettle
