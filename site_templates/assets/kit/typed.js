/* What one types where figures follow: how far it may go, and a number as scripts read it. */
const LOWEST_M = -500;
const HIGHEST_M = 9000;
const MOST_PEOPLE = 40;
const numeral = (text) => text.trim().replace(/[−–]/, "-").replaceAll(SAID.group, "").replace(/\s/g, "").replace(SAID.decimal, ".");
