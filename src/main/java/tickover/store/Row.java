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
    private Row() {}

    /** Makes one value of a row of a result. */
    interface Reader<T> {
        T read(ResultSet row) throws SQLException;
    }

    /** A statement that takes many rows, closed with its resources. */
    static final class Inserter implements AutoCloseable {
        private final PreparedStatement statement;

        Inserter(Connection connection, String sql) throws SQLException {
            statement = connection.prepareStatement(sql);
        }

        void add(Object... values) throws SQLException {
            bind(statement, values);
            statement.executeUpdate();
        }

        @Override
        public void close() throws SQLException {
            statement.close();
        }
    }

    static void insert(Connection connection, String sql, Object... values) throws SQLException {
        try (Inserter inserter = new Inserter(connection, sql)) {
            inserter.add(values);
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
                ResultSet rows = statement.executeQuery()) {
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
            } else {
                statement.setObject(i + 1, values[i]);
            }
        }
    }
}
