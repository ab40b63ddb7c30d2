package tickover.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Runs prepared statements over rows of values. */
final class Row {
    private static final int FETCHED_ROWS = 1000;

    private Row() {}

    /** Makes one value of a row of a result. */
    interface Reader<T> {
        T read(ResultSet row) throws SQLException;
    }

    /** A statement that takes many rows, some hundred at a time, closed with its resources. */
    static final class Inserter implements AutoCloseable {
        private static final int AT_A_TIME = 200;

        private final PreparedStatement statement;
        private final Inserter before;
        private int waiting;

        Inserter(Connection connection, String sql) throws SQLException {
            this(connection, sql, null);
        }

        /** One whose rows refer to those of another, which go in before them. */
        Inserter(Connection connection, String sql, Inserter before) throws SQLException {
            this.statement = connection.prepareStatement(sql);
            this.before = before;
        }

        void add(Object... values) throws SQLException {
            bind(statement, values);
            statement.addBatch();
            if (++waiting == AT_A_TIME) {
                flush();
            }
        }

        /** Inserts what was added. Whoever adds rows calls it last. */
        void flush() throws SQLException {
            if (before != null) {
                before.flush();
            }
            if (waiting > 0) {
                statement.executeBatch();
                waiting = 0;
            }
        }

        @Override
        public void close() throws SQLException {
            statement.close();
            if (waiting > 0) {
                // Beside a failure that led here this is only its consequence.
                throw new IllegalStateException("waiting=" + waiting + ", call flush() last");
            }
        }
    }

    static void insert(Connection connection, String sql, Object... values) throws SQLException {
        update(connection, sql, values);
    }

    /** Runs a statement and says how many rows it touched. */
    static int update(Connection connection, String sql, Object... values) throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(sql)) {
            bind(statement, values);
            return statement.executeUpdate();
        }
    }

    static <T> List<T> list(Connection connection, String sql, Reader<T> reader, Object... values)
            throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(sql)) {
            bind(statement, values);
            try (ResultSet rows = statement.executeQuery()) {
                List<T> list = new ArrayList<>();
                while (rows.next()) {
                    list.add(reader.read(rows));
                }
                return list;
            }
        }
    }

    /** Hands every row on as it comes, so that a table needs no more memory than a row. */
    static void each(Connection connection, String sql, History.TableSink sink)
            throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(sql);
                ResultSet rows = stream(statement)) {
            int columns = rows.getMetaData().getColumnCount();
            List<String> names = new ArrayList<>();
            for (int i = 1; i <= columns; i++) {
                names.add(rows.getMetaData().getColumnName(i));
            }
            sink.head(names);
            while (rows.next()) {
                List<Object> values = new ArrayList<>();
                for (int i = 1; i <= columns; i++) {
                    values.add(rows.getObject(i));
                }
                sink.row(values);
            }
        }
    }

    private static ResultSet stream(PreparedStatement statement) throws SQLException {
        // Without this PostgreSQL's driver takes in the whole table first.
        statement.setFetchSize(FETCHED_ROWS);
        return statement.executeQuery();
    }

    static <T> Optional<T> first(
            Connection connection, String sql, Reader<T> reader, Object... values)
            throws SQLException {
        return list(connection, sql, reader, values).stream().findFirst();
    }

    /** A column that may be empty. */
    static Double maybeNumber(ResultSet row, String column) throws SQLException {
        double value = row.getDouble(column);
        return row.wasNull() ? null : value;
    }

    private static void bind(PreparedStatement statement, Object... values) throws SQLException {
        for (int i = 0; i < values.length; i++) {
            if (values[i] == null) {
                statement.setNull(i + 1, Types.NULL);
            } else if (values[i] instanceof Boolean b) {
                // What is true or false is a number in both databases.
                statement.setInt(i + 1, b ? 1 : 0);
            } else {
                statement.setObject(i + 1, values[i]);
            }
        }
    }
}
