package tickover.diagnose;

/** The words for points on the engine's head. */
final class InjectorPoint {
    static final String VALVE_COVER = "valve-cover";
    private static final String PREFIX = "injector-";

    private InjectorPoint() {}

    static String of(int cylinder) {
        return PREFIX + cylinder;
    }

    /** The cylinder of a point or component {@code injector-N}; 0 for any other. */
    static int cylinder(String point) {
        if (!point.startsWith(PREFIX)) {
            return 0;
        }
        String digits = point.substring(PREFIX.length());
        boolean number = !digits.isEmpty() && digits.length() < 4;
        for (int i = 0; i < digits.length(); i++) {
            number &= digits.charAt(i) >= '0' && digits.charAt(i) <= '9';
        }
        return number ? Integer.parseInt(digits) : 0;
    }
}
