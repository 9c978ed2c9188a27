using System.Globalization;
using System.Xml.Linq;
using PlateTickets.Tickets.Orders.Separations;
using static PlateTickets.Tickets.Exchange.Xjdf.XjdfNames;

namespace PlateTickets.Tickets.Exchange.Xjdf;

/// <summary>
/// Reads the order out of an XJDF 2.x document. What is read is marked; what is left unmarked at the end is listed as kept but not used, so that nothing
/// is passed over in silence.
/// </summary>
public sealed class XjdfReader
{
    /// <summary>Own kinds of GeneralID, since the standard names no press and no cylinder of a plate.</summary>
    public const string PressId = "Press";

    public const string CylinderId = "Cylinder";
    public const string RepeatId = "RepeatMillimetres";
    public const string MaterialId = "Material";

    private const int MostWarnings = 50;
    private const int MostPlates = 200;

    private static readonly HashSet<string> Structure = ["ID", "Name", "Usage", "ProcessUsage", "Version", "Types", "MediaRef", "Unit"];
    private static readonly HashSet<string> KnownTechnologies = ["FlexoDigitalSolvent", "FlexoDigitalThermal"];

    private readonly HashSet<XObject> _used = [];
    private readonly List<DocumentDoubt> _doubts = [];
    private readonly List<string> _warnings = [];
    private readonly XElement _root;

    private XjdfReader(XElement root) => _root = root;

    /// <param name="bytes">The document as it came.</param>
    /// <exception cref="DocumentRefusedException">It is no order for plates.</exception>
    public static OrderDocument Read(byte[] bytes) => Read(SafeXml.Read(bytes));

    /// <exception cref="DocumentRefusedException">It is no order for plates.</exception>
    public static OrderDocument Read(XDocument document)
    {
        var root = document.Root!;
        if (root.Name.Namespace == Jdf1)
        {
            throw new DocumentRefusedException(ReturnCodes.Validation, "This is JDF 1.x, another dialect. Send XJDF 2.x.");
        }

        return root.Name == Ns + "XJDF"
            ? new XjdfReader(root).Read()
            : throw new DocumentRefusedException(ReturnCodes.Validation, $"The root element is {root.Name.LocalName}{(root.Name.Namespace == Ns ? "" : $" of the namespace “{root.Name.NamespaceName}”")}; XJDF of the namespace {Ns} is read here.");
    }

    private OrderDocument Read()
    {
        Use(_root);
        var jobId = Text(_root, "JobID");
        if (jobId.Length == 0)
        {
            throw new DocumentRefusedException(ReturnCodes.Validation, "XJDF/@JobID is missing: it names the job, also when it is sent again.");
        }

        var types = (_root.Attribute("Types")?.Value ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (!types.Contains("ImageSetting") && !types.Contains("Product"))
        {
            throw new DocumentRefusedException(ReturnCodes.Validation, $"XJDF/@Types is “{string.Join(' ', types)}”. Plates are made by ImageSetting: name it there.");
        }

        Version();
        var (media, mediaOf) = MediaOf();
        var dueFrom = Due(out var due, out var priority);
        var customer = First("CustomerInfo");
        var (company, mail) = Contacts();
        return new OrderDocument
        {
            JobId = Short(jobId, "XJDF/@JobID"),
            JobPartId = Short(Text(_root, "JobPartID"), "XJDF/@JobPartID"),
            Title = Text(_root, "DescriptiveName"),
            CustomerId = Text(customer, "CustomerID"),
            CustomerOrderId = Text(customer, "CustomerOrderID").Cut(200),
            CustomerJobName = Text(customer, "CustomerJobName"),
            CustomerName = company.Cut(200),
            ContactMail = mail.Cut(320),
            DueText = due,
            DueFrom = dueFrom,
            Priority = priority,
            Plates = Plates(mediaOf),
            Press = Id(PressId),
            Cylinder = Id(CylinderId),
            RepeatMm = Id(RepeatId),
            Material = Id(MaterialId),
            Brand = Text(media?.Parent, "Brand"),
            Thickness = Thickness(media),
            PlateTechnology = Technology(media),
            Doubts = _doubts,
            Warnings = [.. _warnings, .. Unused()],
        };
    }

    private void Version()
    {
        var version = _root.Attribute("Version")?.Value ?? "";
        if (version.Length > 0 && !version.StartsWith("2.", StringComparison.Ordinal))
        {
            throw new DocumentRefusedException(ReturnCodes.Validation, $"XJDF/@Version is “{version.Cut(20)}”; versions 2.x are read here.");
        }

        if (version.Length > 0 && string.CompareOrdinal(version, XjdfNames.Version) > 0)
        {
            _warnings.Add($"The document says version {version.Cut(20)}; this program knows {XjdfNames.Version} and read it as such.");
        }
    }

    private IEnumerable<XElement> Sets(string name) => _root.Elements(Ns + "ResourceSet").Where(s => s.Attribute("Name")?.Value == name);

    private IEnumerable<XElement> Specific(string name, Func<XElement, bool>? which = null)
    {
        foreach (var set in Sets(name).Where(which ?? (_ => true)))
        {
            Use(set);
            foreach (var resource in set.Elements(Ns + "Resource"))
            {
                if (resource.Element(Ns + name) is { } specific)
                {
                    Use(resource);
                    Use(specific);
                    yield return specific;
                }
            }
        }
    }

    private XElement? First(string name) => Specific(name).FirstOrDefault();

    private string Due(out string due, out int priority)
    {
        priority = 50;
        var infos = Specific("NodeInfo").ToList();
        foreach (var text in infos.Select(i => Text(i, "JobPriority")).Where(t => t.Length > 0))
        {
            priority = int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? Math.Clamp(number, 0, 100) : 50;
        }

        foreach (var info in infos)
        {
            // What the customer pays for lateness changes nothing here, but is no secret of the document.
            Text(info, "DueLevel");
        }

        var own = infos.Where(i => i.Parent!.Parent!.Attribute("ProcessUsage") is null).ToList();
        var ofCustomer = infos.Except(own).ToList();
        foreach (var (of, attribute, where) in new[]
                 {
                     (own, "LastEnd", "NodeInfo/@LastEnd"), (own, "End", "NodeInfo/@End"), (ofCustomer, "LastEnd", "NodeInfo/@LastEnd of the end customer"),
                     ([.. Specific("DeliveryParams")], "Required", "DeliveryParams/@Required"),
                 })
        {
            // Several parts of one job: all must be there by the earliest.
            var times = of.Select(i => Text(i, attribute)).Where(t => t.Length > 0).Order(StringComparer.Ordinal).ToList();
            if (times.Count > 0)
            {
                due = times[0];
                return where;
            }
        }

        due = "";
        return "";
    }

    private (string Company, string Mail) Contacts()
    {
        var (company, mail) = ("", "");
        foreach (var contact in Specific("Contact"))
        {
            var type = contact.Parent!.Elements(Ns + "Part").Select(p => p.Attribute("ContactType")?.Value).FirstOrDefault();
            if (type is not (null or "Customer"))
            {
                continue;
            }

            contact.Parent!.Elements(Ns + "Part").ToList().ForEach(UseAll);
            var organisation = contact.Element(Ns + "Company");
            Use(organisation);
            company = company.Length > 0 ? company : Text(organisation, "OrganizationName");
            foreach (var channel in contact.Elements(Ns + "ComChannel").Where(c => c.Attribute("ChannelType")?.Value == "Email"))
            {
                UseAll(channel);
                var locator = channel.Attribute("Locator")?.Value ?? "";
                mail = mail.Length > 0 ? mail : locator.StartsWith("mailto:", StringComparison.OrdinalIgnoreCase) ? locator[7..] : locator;
            }
        }

        return (company, mail);
    }

    private (XElement? Media, Dictionary<string, XElement> ById) MediaOf()
    {
        var media = Specific("Media").ToList();
        var byId = new Dictionary<string, XElement>();
        foreach (var one in media)
        {
            if (one.Parent!.Attribute("ID")?.Value is { } id)
            {
                byId.TryAdd(id, one);
            }
        }

        var meant = Outputs().Select(e => e.Attribute("MediaRef")?.Value ?? "").Distinct().Where(byId.ContainsKey).Select(id => byId[id]).ToList();
        if (meant.Select(m => (m.Attribute("Thickness")?.Value, m.Attribute("MediaType")?.Value, m.Parent!.Attribute("Brand")?.Value)).Distinct().Count() > 1)
        {
            Doubt("media", "Its plates are of different raw plates. An order here has one material: enter it as several orders, or say which material is right for all.");
        }

        var first = meant.FirstOrDefault() ?? media.FirstOrDefault(m => m.Attribute("MediaType")?.Value is "Plate" or "Sleeve");
        foreach (var one in media)
        {
            // How many raw plates the sender thinks of: the layout decides.
            one.Parent!.Elements(Ns + "AmountPool").ToList().ForEach(UseAll);
            if (one != first)
            {
                one.Attributes().ToList().ForEach(Use);
            }
        }

        var type = Text(first, "MediaType");
        if (first is not null && type != "Plate")
        {
            Doubt("media-type", type == "Sleeve"
                ? "It asks for sleeves (MediaType Sleeve); this room makes flat plates."
                : $"Its MediaType is “{type.Cut(40)}”, not Plate.");
        }

        if (Text(first, "Dimension") is { Length: > 0 } dimension)
        {
            _warnings.Add($"Media/@Dimension {Size(dimension)}: kept, not used. The room chooses the sheets that its plates lie on.");
        }

        if (Text(first, "ReliefThickness") is { Length: > 0 } relief)
        {
            _warnings.Add($"Media/@ReliefThickness {relief.Cut(20)}: kept, not used. The recipe of the material decides the relief.");
        }

        return (first, byId);
    }

    private double? Thickness(XElement? media)
    {
        if (Text(media, "Thickness") is not { Length: > 0 } text)
        {
            return null;
        }

        if (Number(text) is { } thickness)
        {
            return thickness;
        }

        Doubt("thickness", $"Media/@Thickness is “{text.Cut(20)}”, which is no number.");
        return null;
    }

    private string Technology(XElement? media)
    {
        var technology = Text(media, "PlateTechnology");
        if (technology.Length > 0 && !KnownTechnologies.Contains(technology))
        {
            Doubt("technology", technology switch
            {
                "FlexoDirectEngraving" => "It asks for directly engraved plates (PlateTechnology FlexoDirectEngraving); this room exposes and washes out.",
                "FlexoAnalogSolvent" or "FlexoAnalogThermal" => $"It asks for plates exposed through film (PlateTechnology {technology}); this room images the plate's mask.",
                _ => $"Its PlateTechnology is “{technology.Cut(40)}”, which this program does not know.",
            });
        }

        return technology;
    }

    private IEnumerable<XElement> Outputs() => Sets("ExposedMedia").Where(s => s.Attribute("Usage")?.Value == "Output").SelectMany(s => s.Elements(Ns + "Resource")).Select(r => r.Element(Ns + "ExposedMedia")).OfType<XElement>();

    private List<DocumentPlate> Plates(Dictionary<string, XElement> media)
    {
        var actual = ActualColours();
        var files = Files();
        var plates = new List<DocumentPlate>();
        var forms = new HashSet<string>();
        foreach (var exposed in Specific("ExposedMedia", s => s.Attribute("Usage")?.Value == "Output"))
        {
            var resource = exposed.Parent!;
            Plate(exposed, media);
            var parts = resource.Elements(Ns + "Part").ToList();
            parts.ForEach(UseAll);
            foreach (var part in parts)
            {
                forms.Add(string.Join(' ', part.Attributes().Where(a => a.Name.LocalName is "SheetName" or "Side" or "PartVersion").Select(a => $"{a.Name.LocalName} {a.Value}").Order(StringComparer.Ordinal)));
            }

            var separations = parts.Select(p => p.Attribute("Separation")?.Value ?? "").Where(s => s.Length > 0).ToList();
            if (separations.Count == 0)
            {
                separations = ColorantOrder();
            }

            if (separations.Count == 0)
            {
                throw new DocumentRefusedException(ReturnCodes.Validation, $"A plate does not say of which colour it is ({SafeXml.LineOf(resource)}): give Part/@Separation, or ColorantControl/@ColorantOrder for all.");
            }

            plates.AddRange(separations.Select(s => new DocumentPlate(
                s, actual.GetValueOrDefault(s) ?? ColourNames.ProcessColour(s) ?? s, Amount(resource, s), files.GetValueOrDefault(s) ?? (separations.Count == 1 ? files.GetValueOrDefault("") : null) ?? "")));
            if (plates.Count > MostPlates)
            {
                throw new DocumentRefusedException(ReturnCodes.Validation, $"The document has more than {MostPlates} plates: send it as several jobs.");
            }
        }

        if (plates.Count == 0)
        {
            throw new DocumentRefusedException(ReturnCodes.Validation, "The document asks for no plate: a ResourceSet with Name=\"ExposedMedia\" and Usage=\"Output\" holds them.");
        }

        if (forms.Count > 1)
        {
            Doubt("forms", $"Its plates are for several forms ({string.Join("; ", forms.Where(f => f.Length > 0).Order(StringComparer.Ordinal).Take(6))}). An order here has one form: enter it as several orders.");
        }

        if (plates.GroupBy(p => p.Colour, StringComparer.OrdinalIgnoreCase).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            Doubt("twice", $"It asks for {twice.Key} more than once. An order here has one plate of each colour, in copies.");
        }

        return plates;
    }

    private void Plate(XElement exposed, Dictionary<string, XElement> media)
    {
        if (Text(exposed, "PlateType") is { Length: > 0 } type && type != "Exposed")
        {
            Doubt("plate-type", type == "Dummy" ? "It asks for dummy plates without an image (PlateType Dummy)." : $"Its PlateType is “{type.Cut(40)}”, which this program does not know.");
        }

        if (Text(exposed, "Polarity") is { Length: > 0 } polarity && polarity != "Positive")
        {
            Doubt("polarity", polarity == "Negative" ? "It asks for negative plates (Polarity Negative): ink would print where the separation is blank." : $"Its Polarity is “{polarity.Cut(40)}”, which this program does not know.");
        }

        if (exposed.Attribute("MediaRef")?.Value is { } reference && !media.ContainsKey(reference))
        {
            _warnings.Add($"ExposedMedia/@MediaRef {reference.Cut(40)} points to no Media of the document.");
        }
    }

    private int? Amount(XElement resource, string separation)
    {
        var pool = resource.Element(Ns + "AmountPool");
        Use(pool);
        var amounts = new List<string>();
        foreach (var part in pool?.Elements(Ns + "PartAmount") ?? [])
        {
            Use(part);
            part.Elements(Ns + "Part").ToList().ForEach(UseAll);
            var of = part.Elements(Ns + "Part").Select(p => p.Attribute("Separation")?.Value).FirstOrDefault(s => s is not null);
            if ((of is null || of == separation) && Text(part, "Amount") is { Length: > 0 } amount)
            {
                amounts.Add(amount);
            }
        }

        if (amounts.Count == 0)
        {
            return 1;
        }

        var sum = 0.0;
        foreach (var text in amounts)
        {
            if (Number(text) is not { } number || number < 1 || number > 1000 || number != Math.Floor(number))
            {
                Doubt("amount", $"PartAmount/@Amount of {separation} is “{text.Cut(20)}”, which is no number of plates.");
                return null;
            }

            sum += number;
        }

        return (int)Math.Min(sum, 10_000);
    }

    private Dictionary<string, string> ActualColours()
    {
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var colour in Specific("Color"))
        {
            colour.Parent!.Elements(Ns + "Part").ToList().ForEach(UseAll);
            if (colour.Parent!.Elements(Ns + "Part").Select(p => p.Attribute("Separation")?.Value).FirstOrDefault(s => s is not null) is { } separation
                && Text(colour, "ActualColorName") is { Length: > 0 } name)
            {
                names[separation] = name.Trim().Cut(ColourNames.Longest);
            }
        }

        return names;
    }

    private Dictionary<string, string> Files()
    {
        var files = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var list in Specific("RunList"))
        {
            var file = list.Element(Ns + "FileSpec");
            Use(file);
            Text(file, "MimeType");
            var separations = list.Parent!.Elements(Ns + "Part").Select(p => p.Attribute("Separation")?.Value ?? "").DefaultIfEmpty("").ToList();
            list.Parent!.Elements(Ns + "Part").ToList().ForEach(UseAll);
            if (Text(file, "URL") is { Length: > 0 } url)
            {
                foreach (var separation in separations)
                {
                    files.TryAdd(separation, url);
                }
            }
        }

        return files;
    }

    private List<string> ColorantOrder()
    {
        var control = First("ColorantControl");
        var order = Text(control, "ColorantOrder");
        var all = Text(control, "ColorantParams");
        return [.. (order.Length > 0 ? order : all).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Distinct()];
    }

    private string Id(string usage)
    {
        var found = "";
        foreach (var id in _root.Descendants(Ns + "GeneralID").Where(g => g.Attribute("IDUsage")?.Value == usage))
        {
            UseAll(id);
            found = found.Length > 0 ? found : (id.Attribute("IDValue")?.Value ?? "").Trim();
        }

        return found.Cut(200);
    }

    // One line for each kind of thing: a thousand pages of one attribute are one line.
    private IEnumerable<string> Unused()
    {
        var counted = new Dictionary<string, int>();
        Walk(_root, "XJDF");
        var lines = counted.Select(c => $"{c.Key}{(c.Value > 1 ? $" ({c.Value} times)" : "")}: kept, not used.").ToList();
        return lines.Count <= MostWarnings ? lines : [.. lines.Take(MostWarnings), $"{lines.Count - MostWarnings} more kinds of content are kept and not used."];

        void Walk(XElement element, string path)
        {
            foreach (var attribute in element.Attributes().Where(a => !a.IsNamespaceDeclaration && !_used.Contains(a) && !(a.Name.Namespace == XNamespace.None && Structure.Contains(a.Name.LocalName))))
            {
                Count($"{path}/@{Name(attribute.Name, element)}");
            }

            foreach (var child in element.Elements())
            {
                if (child.Name == Ns + "AuditPool")
                {
                    // Who made the document: every one has it, and nobody here decides by it.
                    continue;
                }

                var step = child.Name.LocalName == "ResourceSet" ? $"ResourceSet {(child.Attribute("Name")?.Value ?? "").Cut(40)}" : Name(child.Name, element);
                if (_used.Contains(child))
                {
                    Walk(child, child.Name.LocalName is "ResourceSet" or "Resource" ? $"{step}" : $"{path}/{step}");
                }
                else
                {
                    Count(path == "XJDF" ? step : $"{path}/{step}");
                }
            }
        }

        void Count(string what) => counted[what] = counted.GetValueOrDefault(what) + 1;
    }

    private static string Name(XName name, XElement within) =>
        (name.Namespace == Ns || name.Namespace == XNamespace.None ? name.LocalName : $"{within.GetPrefixOfNamespace(name.Namespace) ?? name.NamespaceName}:{name.LocalName}").Cut(80);

    private void Use(XObject? part)
    {
        if (part is not null)
        {
            _used.Add(part);
        }
    }

    private void UseAll(XElement element)
    {
        foreach (var one in element.DescendantsAndSelf())
        {
            Use(one);
            one.Attributes().ToList().ForEach(Use);
        }
    }

    private string Text(XElement? element, string attribute)
    {
        var found = element?.Attribute(attribute);
        Use(found);
        return found?.Value.Trim() ?? "";
    }

    private void Doubt(string key, string sentence)
    {
        if (_doubts.TrueForAll(d => d.Key != key))
        {
            _doubts.Add(new DocumentDoubt(key, sentence));
        }
    }

    private static string Short(string text, string what) => text.Length <= 200
        ? text
        : throw new DocumentRefusedException(ReturnCodes.Validation, $"{what} has {text.Length} characters; 200 are taken.");

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;

    private static string Size(string points)
    {
        var numbers = points.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(Number).ToList();
        return numbers is [{ } x, { } y]
            ? string.Create(CultureInfo.InvariantCulture, $"{x / PointsPerMm:0.#} × {y / PointsPerMm:0.#} mm")
            : $"“{points.Cut(40)}”";
    }

}
