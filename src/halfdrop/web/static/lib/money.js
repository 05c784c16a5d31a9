// @ts-check
/** A price as a remedy carries it, `USD 83.60`. @param {string} cost */
export function priced(cost) {
  const [currency, amount] = cost.split(" ");
  return amount && /^[A-Z]{3}$/.test(currency) ? money({ amount, currency }) : cost;
}

/** A sum of the server's as a person writes it. @param {{amount: string, currency: string} | null | undefined} money */
export function money(money) {
  if (!money) return "";
  const whole = Number(money.amount) % 1 === 0;
  return new Intl.NumberFormat("en-US", { style: "currency", currency: money.currency, minimumFractionDigits: whole ? 0 : 2 }).format(Number(money.amount));
}
