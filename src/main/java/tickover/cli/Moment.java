package tickover.cli;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import picocli.CommandLine.TypeConversionException;

/** A day or a time as people write it. */
final class Moment {
    private static final LocalTime END_OF_DAY = LocalTime.of(23, 59, 59);

    private Moment() {}

    /** What clocks on the wall show, to the second. */
    static LocalDateTime now() {
        return LocalDateTime.now(ZoneId.systemDefault()).truncatedTo(ChronoUnit.SECONDS);
    }

    /** A day that an option names. */
    static LocalDate day(String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new TypeConversionException("'" + text + "' is no day; write it like 2026-03-04");
        }
    }

    /** A day alone stands for its end, so that what was measured on it comes before. */
    static LocalDateTime of(String option, String text) {
        try {
            return text.contains("T")
                    ? LocalDateTime.parse(text)
                    : LocalDate.parse(text).atTime(END_OF_DAY);
        } catch (DateTimeParseException e) {
            throw CliException.badInput(
                    option
                            + " "
                            + text
                            + ": write a day such as 2026-03-04, or a time such as"
                            + " 2026-03-04T14:30",
                    e);
        }
    }
}
