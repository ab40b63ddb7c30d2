package tickover.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;

/** The bytes of the files of the visits in the log, wherever they are kept. */
interface Recordings {
    /** Where the bytes of a visit's files come from. */
    interface FileSource {
        InputStream open(KeptFile file) throws IOException;
    }

    /**
     * A visit's files on their way in, copied to a folder of this machine and flushed. Closing it
     * removes whatever did not reach its place.
     */
    interface Stage extends AutoCloseable {
        /** The folder of the copies. */
        Path dir();

        /** Sends the files, before the write lock is taken, as part of the transaction. */
        void send(Connection c, UUID visitId) throws SQLException, IOException;

        /**
         * Makes them the files of a new visit. The caller holds the database's write lock and has
         * seen that there is no such visit.
         */
        void promote(UUID visitId) throws SQLException, IOException;

        /**
         * Makes some of them files of a visit that is there, in place of what is kept of them. The
         * caller holds the write lock.
         */
        void putBack(Connection c, UUID visitId, List<KeptFile> files)
                throws SQLException, IOException;

        /** Takes back what was sent, within the transaction. */
        void abandon(Connection c) throws SQLException;

        /** Takes back what {@link #promote} did, after the transaction failed. */
        void undo(UUID visitId) throws IOException;

        @Override
        void close() throws IOException;
    }

    /**
     * Copies files in.
     *
     * @throws VisitFolderException if a file's bytes are not the expected ones
     * @throws IOException if the copy cannot be written
     */
    Stage stage(List<KeptFile> files, FileSource source) throws IOException;

    /** Tells whether something of a file is there, whatever it holds. */
    boolean holds(UUID visitId, String name);

    /**
     * Opens a file. Not within a transaction.
     *
     * @throws java.nio.file.NoSuchFileException if it is not there
     */
    InputStream open(UUID visitId, KeptFile file) throws IOException;

    /**
     * Gives a folder with files of a visit in it, as they are, to be read and not written to.
     *
     * @param wanted the files that have to be there, if they are to be had
     */
    Path folder(UUID visitId, List<KeptFile> wanted) throws IOException;

    /** How to call a file in a message. */
    String shown(UUID visitId, String name);

    /** Removes files. The caller holds the write lock, so no import is putting them back. */
    void remove(Connection c, UUID visitId, Set<String> names) throws SQLException, IOException;

    /** Files that were removed by rule and are there all the same, by visit. */
    Map<UUID, List<String>> removedButThere(Connection c) throws SQLException;

    /**
     * Finds what nothing in the log speaks of.
     *
     * @return by folder: no names for a folder that belongs to no visit, else the names of files
     */
    Map<String, Set<String>> leftovers(Database database);

    /** Removes what imports that were cut off left. */
    void sweep(Database database);
}
