using System.Buffers.Binary;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>Writes a little-endian TIFF header and one directory at offset 8, for files that lie.</summary>
internal static class TinyTiff
{
    public static void Write(byte[] bytes, params (int Tag, int Type, int Value)[] entries)
    {
        Array.Clear(bytes);
        "II*\0"u8.CopyTo(bytes);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), 8);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(8), (ushort)entries.Length);
        var at = 10;
        foreach (var (tag, type, value) in entries)
        {
            if (at + 12 > bytes.Length)
            {
                break;
            }

            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(at), (ushort)tag);
            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(at + 2), (ushort)type);
            BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(at + 4), 1);
            BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(at + 8), value);
            at += 12;
        }
    }

    /// <summary>Sets where the directory after one of so many entries lies.</summary>
    public static void Next(byte[] bytes, int entries, int offset) => BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(10 + (entries * 12)), offset);
}
