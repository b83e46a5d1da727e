/// What furring strips make good.
#pragma once

namespace fallwright::facts {

/// Furring brings framing so far forward, and no farther, as a fastener's hold. Common practice, no source.
inline constexpr double most_furring_mm = 38.1;

}  // namespace fallwright::facts
