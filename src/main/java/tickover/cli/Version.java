package tickover.cli;

import picocli.CommandLine.IVersionProvider;

/** The program's version, as the jar's manifest has it. */
final class Version implements IVersionProvider {
    private static final String NOT_FROM_A_JAR = "development";

    /** Returns the version. */
    static String text() {
        String fromManifest = Version.class.getPackage().getImplementationVersion();
        return fromManifest == null ? NOT_FROM_A_JAR : fromManifest;
    }

    @Override
    public String[] getVersion() {
        return new String[] {"tickover " + text()};
    }
}
