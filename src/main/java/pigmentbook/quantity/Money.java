package pigmentbook.quantity;

import java.math.BigDecimal;

/**
 * An amount of money.
 *
 * @param amount the amount, 0 or more
 * @param currency the currency's letters, ISO 4217: {@code EUR}
 */
public record Money(BigDecimal amount, String currency) implements Amount {

    public Money {
        if (amount.signum() < 0) {
            throw Refusal.negative(amount.toPlainString(), "a price");
        }
        if (currency.length() != 3 || !currency.chars().allMatch(letter -> letter >= 'A' && letter <= 'Z')) {
            throw new BadAmountException(
                    Refusal.quoted(currency) + " is no currency; write its three letters, such as EUR.");
        }
    }

    /**
     * Reads an amount and its currency.
     *
     * @param amount such as {@code "62.00"}
     * @param currency three letters
     * @throws BadAmountException if the amount is no number or negative, or the currency is not three letters
     */
    public static Money parse(String amount, String currency) {
        return AmountParser.parseMoney(amount, currency);
    }

    @Override
    public String written() {
        return amount.toPlainString() + " " + currency;
    }
}
