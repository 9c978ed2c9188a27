using System.Xml.Linq;

namespace PlateTickets.Tickets.Exchange.Xjdf;

/// <summary>Names of XJDF 2.2 that this program reads and writes.</summary>
public static class XjdfNames
{
    /// <summary>One namespace for all 2.x versions (XJDF 2.2, 3.1).</summary>
    public static readonly XNamespace Ns = "http://www.CIP4.org/JDFSchema_2_0";

    /// <summary>The older dialect: another structure, not read here.</summary>
    public static readonly XNamespace Jdf1 = "http://www.CIP4.org/JDFSchema_1_1";

    /// <summary>What this program writes, and reads without a word.</summary>
    public const string Version = "2.2";

    public const string XjdfType = "application/vnd.cip4-xjdf+xml";
    public const string XjmfType = "application/vnd.cip4-xjmf+xml";
    public const string XjdfZipType = "application/vnd.cip4-xjdf+zip";
    public const string XjmfZipType = "application/vnd.cip4-xjmf+zip";

    /// <summary>The message of a package (XJDF 2.2, 9.7.1.1).</summary>
    public const string RootMessage = "root.xjmf";

    /// <summary>Points per millimetre: lengths are in points, 1/72 inch (XJDF 2.2, A.3.23).</summary>
    public const double PointsPerMm = 72 / 25.4;
}

/// <summary>Return codes of XJMF (XJDF 2.2, A.4.2). 0 to 4 and 111 are read in the text of the specification; the others are from memory.</summary>
public static class ReturnCodes
{
    public const int Success = 0;
    public const int General = 1;
    public const int Internal = 2;
    public const int Parser = 3;
    public const int Validation = 4;

    /// <summary>The message is known, but not this use of it.</summary>
    public const int NotImplemented = 5;

    public const int SubscriptionDenied = 111;
    public const int UnknownQueueEntry = 105;
    public const int EntryIsOver = 106;

    /// <summary>Our own: a person must decide first. Codes above 1000 are free.</summary>
    public const int AskedPerson = 1001;
}
