package pigmentbook.quantity;

/** The kinds of amount that have units, and how an error message speaks of them. */
enum Kind {
    AREA("an area", "mm2, cm2, m2, in2 or ft2", "0.02 m2", false),
    COVERAGE("a mass for each area", "g/m2 or oz/ft2", "120 g/m2", false),
    DENSITY("a density", "g/mL, kg/m3 or lb/gal", "1.15 g/mL", false),
    DURATION("a time", "min, h, d or wk", "40 min or 1 h 30 min", true),
    LENGTH("a length", "mm, cm, m, in or ft", "210 mm or 8 1/2 in", true),
    MASS("a mass", "g, kg, oz or lb", "250 g or 1 lb 3 oz", true),
    PERCENT("a percentage", "%", "1.2 %", false),
    TEMPERATURE("a temperature", "C, F or K", "21 C or 70 F", false),
    VOLUME("a volume", "mL, L, cm3, fl oz or gal", "250 mL or 12 fl oz", true);

    private final String noun;
    private final String units;
    private final String example;
    private final boolean addsUp;

    Kind(String noun, String units, String example, boolean addsUp) {
        this.noun = noun;
        this.units = units;
        this.example = example;
        this.addsUp = addsUp;
    }

    /** Returns the kind with its article: "a length". */
    String noun() {
        return noun;
    }

    /** Returns the units that are named to a person who wrote none, or a wrong one. */
    String units() {
        return units;
    }

    /** Returns what is wanted, with an example. */
    String expected() {
        return noun + " is expected, such as " + example;
    }

    /** Returns whether an amount may be written in several units: {@code 1 ft 2 in}, but not {@code 1 % 2 %}. */
    boolean addsUp() {
        return addsUp;
    }
}
