// What a page's scripts say, in the language of the page: the service writes what stands for their English beside it.

const phrases = JSON.parse(document.body.dataset.words ?? "{}");

export const spoken = (english, ...figures) => (phrases[english] ?? english).replace(/\{(\d)\}/g, (_, place) => figures[place]);

// For clocks and days; a day has twenty-four hours here.
export const language = document.documentElement.lang === "en" ? "en-GB" : document.documentElement.lang;
