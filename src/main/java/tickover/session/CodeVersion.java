package tickover.session;

import java.util.Optional;

/** The version of the program, for results to carry. */
public final class CodeVersion {
    private CodeVersion() {}

    /**
     * Returns the version in the program's own archive.
     *
     * @return such as 0.1.0; {@code development} when run from loose classes
     */
    public static String text() {
        return Optional.ofNullable(CodeVersion.class.getPackage().getImplementationVersion())
                .orElse("development");
    }
}
