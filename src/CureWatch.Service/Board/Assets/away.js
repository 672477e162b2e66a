// How far away an instant is, or how long ago, in words: by the second in its last ten minutes.

import { spoken } from "./tongue.js";

export function away(milliseconds) {
  const seconds = Math.floor(Math.abs(milliseconds) / 1000);
  const minutes = Math.floor(seconds / 60);
  const hours = Math.floor(minutes / 60);
  const length = minutes < 10 ? `${minutes}:${String(seconds % 60).padStart(2, "0")}`
    : hours < 1 ? `${minutes} min`
    : hours < 48 ? `${hours} h ${String(minutes % 60).padStart(2, "0")} min`
    : null;
  const days = Math.floor(hours / 24);
  return milliseconds >= 0
    ? length ? spoken("in {0}", length) : spoken("in {0} days", days)
    : length ? spoken("{0} ago", length) : spoken("{0} days ago", days);
}
